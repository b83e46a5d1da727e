"""Holds that no file gives a constant of its room's headers another value under the same name.

The files of a room are compiled together: what one file calls by a header's name in its unnamed namespace is what every
file after it reads there, without a word from the compiler.
"""
import pathlib
import re
import sys

CONSTANT = re.compile(r"^(?:static |inline )*constexpr ([^;]*?);", re.M | re.S)
NAME = re.compile(r"(\w+)\s*(?:=(?!=)|\{)")


def constants_of(text):
    return {name for found in CONSTANT.finditer(text) for name in NAME.findall(found[1])}


def again(headers, files):
    """(file, name, header) of each constant that a file of the room names again."""
    told = {name: path for path, text in headers.items() for name in constants_of(text)}
    return [(path, name, told[name]) for path, text in files.items() for name in sorted(constants_of(text) & told.keys())]


def of_room(room, ending):
    return {path: path.read_text(encoding="utf-8") for path in sorted(room.glob("*" + ending))}


def main():
    if "--probe" in sys.argv:
        found = again({"a.hpp": "inline constexpr double letter = 3, least = 2;"}, {"a.cpp": "constexpr double letter = 2;"})
        sys.exit(found != [("a.cpp", "letter", "a.hpp")])
    root = pathlib.Path(sys.argv[1])
    found = [f for room in sorted((root / "src").iterdir()) if room.is_dir()
             for f in again(of_room(room, ".hpp"), of_room(room, ".cpp"))]
    for path, name, header in found:
        print(f"{path}: '{name}' is a constant of {header} already")
    sys.exit(bool(found))


main()
