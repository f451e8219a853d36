"""TOML text in, tables and located problems out; knows nothing of files."""
