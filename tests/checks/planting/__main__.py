"""Print the table: `python -m tests.checks.planting [PLANS] [TIMES] [SEED] [--show]`."""

import sys

from tests.checks.planting.table import shown, table


def main() -> int:
    """Plant, print, and tell whether all was found and nothing else said."""
    numbers = [int(word) for word in sys.argv[1:] if word.isdigit()]
    many, times, seed = (*numbers, *(100, 1, 1)[len(numbers) :])
    rows, controls, alarms = table(seed, many, times)
    print(shown(rows, controls, alarms))
    if "--show" in sys.argv:
        for row in rows:
            for planted in row.missed[:1]:
                print(f"\nMISSED: {row.planter.sentence}, at one of {sorted(planted.lines)[:9]}")
                _print_near(planted.text, min(planted.lines))
            for planted, found in row.false[:2]:
                print(f"\nFALSE: {row.planter.sentence}: {found.span} {found.rule}: {found.words}")
                _print_near(planted.text, found.span.line if found.span else 1)
        for text, found in alarms[:5]:
            print(f"\nCONTROL: {found.span} {found.rule}: {found.words}")
            _print_near(text, found.span.line if found.span else 1)
    clean = not alarms and all(not row.missed and not row.false for row in rows)
    return 0 if clean else 1


def _print_near(text: str, line: int) -> None:
    for number, row in enumerate(text.splitlines(), 1):
        if line - 4 <= number <= line + 12:
            print(f"{number:>5} | {row}")


if __name__ == "__main__":
    sys.exit(main())
