from conductor.engine.picture import picture
from conductor.engine.table import BY_TIME, TABLE, Takes


def test_the_picture_has_every_way_of_the_table_and_no_other() -> None:
    drawn = set()
    stays = set()
    for line in picture().splitlines()[1:]:
        text = line.strip()
        if text.startswith("note right of "):
            state, rest = text.removeprefix("note right of ").split(": stays: ")
            stays |= {(state, do) for do in rest.split(", ")}
        elif ": " in text:
            way, why = text.split(": ")
            start, to = way.split(" --> ")
            drawn |= {(start, to, do) for do in ([why] if why[0] == "(" else why.split(", "))}
    table = {
        (str(state), str(to), str(do))
        for state, row in TABLE.items()
        for do, cell in row.items()
        if isinstance(cell, Takes)
        for to in cell.to
    }
    assert drawn == {way for way in table if way[0] != way[1]} | {
        (str(a), str(b), f"({why})") for a, why, b in BY_TIME
    }
    assert stays == {(start, do) for start, to, do in table if start == to}
