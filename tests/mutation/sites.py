"""Places of a C++ source where a fault can be put in, found on its tokens: nothing here understands the language.

A Mutant says what its fault is in words (`was`, `now`) and how the source is changed so that the fault can be switched on
(`edits`, with `@` for its number) or is simply there (`plain`). What does not compile is dropped by mutate.py.
"""

import re
from dataclasses import dataclass

TOKEN = re.compile(r"""
    (?P<comment>//[^\n]*|/\*.*?\*/)
  | (?P<directive>^[ \t]*\#(?:[^\n\\]|\\.|\\\n)*)
  | (?P<string>(?:u8|L)?R"(?P<raw>[^(\s]*)\(.*?\)(?P=raw)"|(?:u8|L)?"(?:[^"\\\n]|\\.)*")
  | (?P<char>'(?:[^'\\\n]|\\.)+')
  | (?P<number>\.?\d(?:'?[\w.]|(?<=[eEpP])[+-])*)
  | (?P<word>[A-Za-z_]\w*)
  | (?P<punct><=>|->\*|\.\.\.|<<=|>>=|::|->|\+\+|--|<<|<=|>=|==|!=|&&|\|\||[-+*/%&|^]=|.)
""", re.X | re.S | re.M)


@dataclass
class Token:
    kind: str
    text: str
    start: int
    end: int


@dataclass
class Mutant:
    file: str
    line: int
    kind: str
    was: str
    now: str
    edits: list      # (start, end, text), with @ for the mutant's number
    plain: list      # the same without a switch
    span: tuple      # what no other mutant of the same build may touch
    source: str      # its line, so that it is known again when lines have moved

    def key(self):
        return f"{self.file}: {self.was} -> {self.now} | {self.source}"


NUMBERS = {"<": "less", "<=": "less_equal", ">": "greater", ">=": "greater_equal", "==": "equal", "!=": "unequal",
           "+": "plus", "-": "minus", "*": "times", "/": "over"}
SWAPS = {"+": ["-"], "-": ["+"], "*": ["/"], "/": ["*"], "<": ["<=", ">"], "<=": ["<", ">"], ">": [">=", "<"],
         ">=": [">", "<"], "==": ["!="], "!=": ["=="]}
CALLS = {"floor": "ceil", "ceil": "floor", "round": "floor", "sin": "cos", "cos": "sin", "min": "max", "max": "min",
         "min_element": "max_element", "max_element": "min_element", "any_of": "all_of", "all_of": "any_of",
         "abs": "no abs"}
PAIRS = [("left", "right"), ("back", "front"), ("Left", "Right"), ("Back", "Front"), ("width", "depth"), ("length", "width"),
         ("length_mm", "width_mm"), ("width_mm", "depth_mm"), ("x", "y"), ("X", "Y"), ("z", "y"), ("Z", "X"), ("low", "high"),
         ("least", "greatest"), ("from", "to"), ("first", "second"), ("before", "after"), ("begin", "end"), ("top", "bottom"),
         ("in_mm", "in_inches"), ("mm", "inches"), ("least_mm", "greatest_mm"), ("low_mm", "high_mm"), ("from_mm", "to_mm"),
         ("min", "max"), ("front_left", "front_right"), ("back_left", "back_right"), ("floor", "ceil"), ("across", "along"),
         ("gx", "gy"), ("x_mm", "y_mm"), ("area_mm2", "volume_mm3"), ("timber", "steel"), ("pass", "fail"), ("gap", "clash"),
         ("a", "b"), ("thickness", "depth"), ("at_floor_mm", "at_top_mm"), ("least_at_mm", "greatest_at_mm"),
         ("square", "round"), ("wall", "bench"), ("caution", "pass"), ("up", "down"), ("above", "below"), ("add", "remove")]
OTHER = {}
for one, two in PAIRS:
    OTHER.setdefault(one, two)
    OTHER.setdefault(two, one)
UNITS = {"mm": "in", "in": "mm", "ft": "in", "kg": "lb", "m2": "ft2", "m3": "ft3", "mm2": "mm3", "mm3": "mm2", "lb": "kg"}
NOT_BEFORE_AN_OPERAND = {"return", "case", "else", "throw", "operator"}
KEYWORDS = {"return", "if", "for", "while", "switch", "case", "break", "continue", "const", "auto", "static", "using", "namespace",
            "struct", "throw", "do", "else", "try", "default", "template", "class", "enum", "goto", "constexpr", "inline",
            "public", "private", "protected", "friend", "explicit", "extern", "typedef", "delete", "catch", "ensure", "operator",
            "static_assert", "co_return", "bool", "int", "double", "void", "unsigned", "char", "long"}
ASSIGN = {"=", "+=", "-=", "*=", "/=", "%=", "|=", "&=", "^="}
CLOSES = {")": "(", "]": "[", "}": "{"}


def tokens_of(source):
    """All tokens but comments and directives."""
    found = []
    for match in TOKEN.finditer(source):
        if match.lastgroup in ("comment", "directive") or match["comment"] or match["directive"]:
            continue
        kind = next(k for k in ("string", "char", "number", "word", "punct") if match[k] is not None)
        if kind == "punct" and match[0].isspace():
            continue
        found.append(Token(kind, match[0], match.start(), match.end()))
    return found


def partners(tokens):
    """For each bracket the index of the one that closes or opens it."""
    pairs, stack = {}, []
    for i, token in enumerate(tokens):
        if token.kind != "punct":
            continue
        if token.text in "([{":
            stack.append(i)
        elif token.text in CLOSES and stack and tokens[stack[-1]].text == CLOSES[token.text]:
            pairs[i] = stack.pop()
            pairs[pairs[i]] = i
    return pairs


class Source:
    def __init__(self, name, text):
        self.name, self.text = name, text
        self.tokens = tokens_of(text)
        self.pair = partners(self.tokens)
        self.lines = text.split("\n")
        self.words = {t.text for t in self.tokens if t.kind == "word"}
        self.mutants = []

    def line(self, at):
        return self.text.count("\n", 0, at) + 1

    def add(self, kind, start, end, was, now, edits, plain=None, span=None):
        clean = lambda text: re.sub(r"\s+", " ", text)
        line = self.line(start)
        self.mutants.append(Mutant(self.name, line, kind, clean(was), clean(now), edits, plain or [], span or (start, end),
                                   self.lines[line - 1].strip()))

    def spaced(self, token):
        return self.text[token.start - 1].isspace() and self.text[token.end:token.end + 1].isspace()

    def around(self, i, now):
        """The operands about token i in short, before and after."""
        tokens = self.tokens
        low, high = tokens[max(0, i - 4)].start, tokens[min(len(tokens) - 1, i + 4)].end
        token = tokens[i]
        return self.text[low:high], self.text[low:token.start] + now + self.text[token.end:high]

    def find(self):
        for i in range(1, len(self.tokens) - 1):
            token = self.tokens[i]
            if token.kind == "punct":
                self.operator(i, token)
            elif token.kind == "number":
                self.number(i, token)
            elif token.kind == "string":
                self.words_of(token)
            elif token.kind == "word":
                self.word(i, token)
            if token.text in (";", "{", "}", ")", "else"):
                self.statement(i + 1)
        return self.mutants

    def operator(self, i, token):
        before, after = self.tokens[i - 1], self.tokens[i + 1]
        text = token.text
        operand = before.kind in ("number", "word") and before.text not in NOT_BEFORE_AN_OPERAND or before.text in ")]"
        if text in SWAPS and self.spaced(token) and operand and "string" not in (before.kind, after.kind):
            for now in SWAPS[text]:
                was, becomes = self.around(i, now)
                self.add("operator", token.start, token.end, was, becomes,
                         [(token.start, token.end, f"{text} ::mutation::Operator<@, ::mutation::{NUMBERS[now]}>{{}} {text}")],
                         [(token.start, token.end, now)])
        elif text in ("+=", "-="):
            now = "-=" if text == "+=" else "+="
            was, becomes = self.around(i, now)
            self.add("operator", token.start, token.end, was, becomes,
                     [(token.start, token.end, f"{text} ::mutation::Assigned<@>{{}} {text}")], [(token.start, token.end, now)])
        elif text in ("&&", "||") and self.spaced(token):
            was, becomes = self.around(i, f"{text} {'true' if text == '&&' else 'false'} /*")
            switch = "::mutation::on(@) |" if text == "&&" else "!::mutation::on(@) &"
            end = self.operand_end(i + 1)
            was = self.text[before.start:end]
            self.add("term", token.start, end, was, self.text[before.start:before.end] + " (term dropped)",
                     [(token.end, token.end, f" {switch}")], span=(token.start, token.end))
            now = "||" if text == "&&" else "&&"
            was, becomes = self.around(i, now)
            self.add("term", token.start, token.end, was, becomes, None, [(token.start, token.end, now)])
        elif text == "!" and after.start == token.end and after.text != "=":
            was, becomes = self.around(i, "")
            self.add("sign", token.start, token.end, was, becomes, [(token.start, token.end, "::mutation::Not<@>{} ->* ")])
        elif text == "-" and after.start == token.end and not operand:
            was, becomes = self.around(i, "")
            self.add("sign", token.start, token.end, was, becomes, [(token.start, token.end, "::mutation::Minus<@>{} ->* ")])
        elif text == "?" and self.spaced(token):
            was, becomes = self.around(i, "(negated) ?")
            self.add("branch", token.start, token.end, was, becomes, [(token.start, token.start, "^ ::mutation::on(@) ")])

    def operand_end(self, i):
        """Where a term of && or || ends."""
        depth_end = i
        while depth_end < len(self.tokens):
            token = self.tokens[depth_end]
            if token.text in ("&&", "||", "?", ":", ";", ",", ")", "}", "]"):
                break
            depth_end = self.pair.get(depth_end, depth_end) if token.text in "([{" else depth_end
            depth_end += 1
        return self.tokens[depth_end - 1].end

    def number(self, i, token):
        text = token.text.replace("'", "")
        if re.fullmatch(r"\d+", text):
            now = str(int(text) + 1)
        elif re.fullmatch(r"\d*\.\d*(e-?\d+)?|\d+e-?\d+", text):
            now = repr(float(text) * 1.05) if float(text) else "1.0"
        else:
            return
        was, becomes = self.around(i, now)
        self.add("constant", token.start, token.end, was, becomes,
                 [(token.start, token.end, f"(::mutation::on(@) ? {now} : {token.text})")], [(token.start, token.end, now)])
        if text == "1" or text == "2":
            now = str(int(text) - 1)
            was, becomes = self.around(i, now)
            self.add("constant", token.start, token.end, was, becomes,
                     [(token.start, token.end, f"(::mutation::on(@) ? {now} : {token.text})")], [(token.start, token.end, now)])

    def words_of(self, token):
        """A side or a unit told wrongly in a text."""
        for match in re.finditer(r"[A-Za-z]+[23]?", token.text):
            now = OTHER.get(match[0]) if len(match[0]) > 2 else None
            now = now or UNITS.get(match[0])
            if not now or match[0] in ("in", "a", "to", "from", "first") or match.start() and token.text[match.start() - 1] == "\\":
                continue
            text = token.text[:match.start()] + now + token.text[match.end():]
            self.add("text", token.start, token.end, token.text, text,
                     [(token.start, token.end, f"(::mutation::on(@) ? {text} : {token.text})")], [(token.start, token.end, text)])

    def word(self, i, token):
        before, after = self.tokens[i - 1], self.tokens[i + 1]
        if token.text in CALLS and after.text == "(" and before.text == "::" and self.tokens[i - 2].text == "std":
            was, becomes = self.around(i, CALLS[token.text])
            self.add("call", self.tokens[i - 2].start, token.end, was, becomes,
                     [(self.tokens[i - 2].start, token.end, f"::mutation::{token.text}<@>")])
        elif token.text in ("true", "false"):
            was, becomes = self.around(i, "false" if token.text == "true" else "true")
            self.add("constant", token.start, token.end, was, becomes,
                     [(token.start, token.end, f"({'!' if token.text == 'true' else ''}::mutation::on(@))")])
        elif token.text in OTHER and before.text != "&" and "std" != self.tokens[i - 2].text:
            self.side(i, token)
        elif token.text == "if" and after.text == "(" or token.text == "if" and after.text == "constexpr":
            self.condition(i + 1)
        elif token.text == "for" and after.text == "(":
            self.loop(i + 1)

    def side(self, i, token):
        start = self.chain_start(i)
        member = start != i
        if not member and (OTHER[token.text] not in self.words or self.tokens[i - 1].kind == "word"
                           or self.tokens[i - 1].text in ("*", "&", ">", "struct") and not self.spaced(self.tokens[i - 1])):
            return
        if self.tokens[i - 1].text == "{" and self.tokens[i + 1].text == "=":  # {.left = ...}
            return
        end = self.pair[i + 1] if self.tokens[i + 1].text in "(" and i + 1 in self.pair else i
        first, last = self.tokens[start], self.tokens[end]
        was = self.text[first.start:last.end]
        now = self.text[first.start:token.start] + OTHER[token.text] + self.text[token.end:last.end]
        self.add("side", first.start, last.end, was, now,
                 [(first.start, last.end, f"(::mutation::on(@) ? {now} : {was})")],
                 [(token.start, token.end, OTHER[token.text])])

    def chain_start(self, i):
        """Where the postfix expression begins whose last name token i is."""
        while i >= 2 and self.tokens[i - 1].text in (".", "->", "::"):
            i -= 2
            while self.tokens[i].text in (")", "]") and i in self.pair:
                i = self.pair[i] - 1
            if self.tokens[i].kind != "word":
                return i + 1
        return i

    def condition(self, i):
        if self.tokens[i].text == "constexpr" or i not in self.pair:
            return
        first, last = i + 1, self.pair[i]
        semicolons = [k for k in range(first, last) if self.tokens[k].text == ";" and not self.inside(k, first)]
        first = semicolons[-1] + 1 if semicolons else first
        text = self.text[self.tokens[first].start:self.tokens[last].start]
        if re.match(r"(const )?auto\b", text) or re.match(r"[\w:]+(<[^<>]*>)?[*&]? [*&]?\w+ = ", text) or text.startswith("const "):
            return
        start, end = self.tokens[first].start, self.tokens[last].start
        for now, switch in (("true", "::mutation::on(@) ||"), ("false", "!::mutation::on(@) &&")):
            self.add("branch", start, end, f"if ({text})", f"if ({now})",
                     [(start, start, f"{switch} ("), (end, end, ")")], [(start, end, now)], span=(start, start))

    def inside(self, k, first):
        """Whether token k stands in brackets of its own after `first`."""
        return any(first <= a < k < b for a, b in self.pair.items() if a < b)

    def loop(self, i):
        if i not in self.pair:
            return
        close = self.pair[i]
        if any(self.tokens[k].text == ";" and not self.inside(k, i + 1) for k in range(i + 1, close)):
            return
        text = self.text[self.tokens[i - 1].start:self.tokens[close].end]
        body = self.tokens[close + 1]
        for how, switch in (("first skipped", "::mutation::on(@) && ++mutation_@ == 1"),
                            ("all but the first skipped", "::mutation::on(@) && ++mutation_@ > 1")):
            guard = f" if ({switch}) continue; "
            at = body.end if body.text == "{" else body.start
            self.add("loop", self.tokens[i].start, self.tokens[i].end, text, how,
                     [(self.tokens[i].end, self.tokens[i].end, "int mutation_@ = 0; "),
                      (at, at, guard if body.text == "{" else guard + "else ")], span=(self.tokens[i].start, self.tokens[i].end))

    def statement(self, i):
        """A statement that is an assignment or a call, left out."""
        token = self.tokens[i]
        if token.kind != "word" or token.text in KEYWORDS:
            return
        k, called, assigned = i, False, False
        while k < len(self.tokens) and self.tokens[k].text != ";":
            text = self.tokens[k].text
            if text in ASSIGN:
                assigned = True
            if not assigned and k > i and self.tokens[k].kind == "word" and self.tokens[k - 1].kind == "word":
                return
            if not assigned and text in ("<", ">", "&", "*", ":", "?", "{", "}", ")", ","):
                return
            if text in "([{":
                if k not in self.pair:
                    return
                called = called or text == "("
                k = self.pair[k]
            k += 1
        if k >= len(self.tokens) or not (called or assigned) or "reserve" in self.text[token.start:self.tokens[k].start]:
            return
        end = self.tokens[k].end
        self.add("statement", token.start, end, self.text[token.start:end], "(left out)",
                 [(token.start, token.start, "{ if (!::mutation::on(@)) "), (end, end, " }")],
                 span=(token.start, token.start))


def mutants_of(name, text):
    found = [m for m in Source(name, text).find()]
    lines = text.split("\n")
    # Of what only our own mistakes reach nothing is asked; headers and declarations have no mutants of their own.
    skip = re.compile(r"\bensure\(|static_assert|^#|\breserve\(")
    return [m for m in found if not skip.search(lines[m.line - 1])]
