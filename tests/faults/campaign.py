"""Faults on purpose: campaign.py FALLWRIGHT PUBLISHER CASE runs one case, `--every [FIRST]` in place of CASE the long one, from
the FIRST call on; --list tells the cases."""
import pathlib
import sys

import folder_cases
import program_cases

FOLDER = {case.__name__: case for case in folder_cases.CASES}
PROGRAM = {case.__name__: case for case in program_cases.CASES}


def main():
    if sys.argv[1:] == ["--list"]:
        print(";".join([*FOLDER, *PROGRAM]), end="")
        return 0
    fallwright, publisher, case = sys.argv[1:4]
    try:
        if case == "--every":
            program_cases.every_call(pathlib.Path(fallwright), int((*sys.argv[4:], 1)[0]))
        elif case in FOLDER:
            FOLDER[case](pathlib.Path(publisher))
        else:
            PROGRAM[case](pathlib.Path(fallwright))
    except AssertionError as fault:
        print(f"{case}: {fault}")
        return 1
    return 0


sys.exit(main())
