"""The screens. Nothing here decides anything about a dog: the core does, the screens show and ask."""
