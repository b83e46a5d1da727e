"""How long function bodies of a C++ source are, by its braces; what a list of values holds is no code and counts nothing. A
body's brace stands after a blank, as .clang-format has it, and a list's does not, but after `=`, `return`, `,` and braces."""
import re

words = re.compile(r'//[^\n]*|/\*.*?\*/|R"(\w*)\(.*?\)\1"|"(?:\\.|[^"\\\n])*"|(?<![0-9A-Fa-f])\'(?:\\.|[^\'\\\n])+\'', re.S)
spaces = re.compile(r"^\s*(?:inline\s+)?(?:namespace|extern)\b")
types = re.compile(r"\b(?:struct|class|union|enum)\b[^()=]*$")


def plain(text):
    """The same lines without what stands in comments and quotes, and without what the preprocessor reads."""
    text = words.sub(lambda found: re.sub(r"[^\n]", "_" if found.group()[0] != "/" else " ", found.group()), text)
    return re.sub(r"^#(?:[^\n]*\\\n)*[^\n]*", lambda found: "\n" * found.group().count("\n"), text, flags=re.M)


def kind_of(head, before, around):
    """What a brace opens: "space", "type", "body", "list" or a "block" within a body."""
    last = before.rstrip()
    if around and around[-1] in ("body", "block", "list"):
        is_list = before[-1:].strip() or last.endswith(("=", "return", ",", "(", "{", "["))
        return "list" if is_list else "block"
    if spaces.search(head):
        return "space"
    if types.search(head):
        return "type"
    return "body" if "(" in head and not before[-1:].strip() and not last.endswith("=") else "list"


def bodies(text):
    """(line, lines) of every function body."""
    text = plain(text)
    open_braces, found, begin, line = [], [], 0, 1
    for i, letter in enumerate(text):
        if letter == "\n":
            line += 1
        elif letter == "{":
            kind = kind_of(text[begin:i], text[max(0, i - 20):i], [one[0] for one in open_braces])
            open_braces.append((kind, line, begin))
            if kind != "list":
                begin = i + 1
        elif letter == "}" and open_braces:
            kind, first, _ = open_braces.pop()
            if kind != "list":
                begin = i + 1
            within = [one for one in open_braces if one[0] in ("body", "list")]
            if kind == "list" and within and not any(one[0] == "list" for one in within):
                found.append(("list", first, line))
            if kind == "body":
                found.append(("body", first, line))
        elif letter == ";" and not (open_braces and open_braces[-1][0] == "list"):
            begin = i + 1
    lists = [(a, b) for kind, a, b in found if kind == "list"]
    return [(a, max(0, b - a - 1) - sum(max(0, d - c - 1) for c, d in lists if a <= c and d <= b))
            for kind, a, b in found if kind == "body"]
