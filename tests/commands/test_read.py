"""`read` of a file, by region, and of a note step by step."""

from hands_on.cli import main


def test_a_file_is_read_paragraph_by_paragraph_and_told_by_region(tmp_path, capsys):
    path = tmp_path / "critique.txt"
    path.write_text(
        "Slightly steep croup,\nof good length.\nNeck a little short.\n\nMoves soundly.\n", encoding="utf-8"
    )
    assert main(["read", str(path)]) == 0
    out = capsys.readouterr().out
    assert out.count("> ") == 2
    places = [out.index(word) for word in ("neck.short", "croup-tail.croup-steep", "> Moves soundly.")]
    assert places == sorted(places)
    assert "movement.soundness: as asked" in out


def test_the_steps_name_clauses_parts_and_evidence(capsys):
    assert main(["read", "--explain", "Slightly steep croup, of good length"]) == 0
    out = capsys.readouterr().out
    assert "talk degree slight" in out
    assert "croup-tail.croup-steep, present, slight, by pair" in out
    assert "like.ahead +" in out
