#!/usr/bin/env python3
"""Joins the sources of one room into few translation units, since most of a compilation is the same headers again.

    cmake/units.py ROOT OUT MOST FILE...     writes OUT/unit_1.cpp ... and prints their paths, one a line

Two files share a unit only when neither uses a name that the other keeps to itself (in an unnamed namespace, as a macro
or file-static), so that joining them neither fails nor changes what a call means. FILEs are relative to ROOT; a unit holds
MOST files at most.
"""
import os
import re
import sys

TOKEN = re.compile(r"[A-Za-z_]\w*|::|->|\S")
WORDS = {"const", "constexpr", "static", "inline", "auto", "if", "for", "while", "return", "operator", "template", "typename"}


def bare(text):
    """The text without comments, strings and preprocessor lines."""
    text = re.sub(r'R"(\w*)\((?:.|\n)*?\)\1"', '""', text)
    text = re.sub(r'"(?:\\.|[^"\\\n])*"|//[^\n]*|/\*(?:.|\n)*?\*/', lambda m: '""' if m.group(0)[0] == '"' else " ", text)
    text = re.sub(r"'(?:\\.|[^'\\\n])'", "0", text)
    return re.sub(r"^[ \t]*#(?:\\\n|[^\n])*", "", text, flags=re.M)


def declared(tokens):
    """The name that one declaration at namespace scope makes, and whether it is only borrowed by `using`."""
    if not tokens:
        return None, False
    if tokens[0] == "using":
        if "=" in tokens:
            return tokens[1], False
        return (None, False) if "namespace" in tokens else (tokens[-1], True)
    if tokens[0].startswith("TEST") and len(tokens) > 4:
        return tokens[2] + "_" + tokens[4], False
    depth = 0
    for i, token in enumerate(tokens):
        if token == "<":
            depth += 1
        elif token == ">":
            depth = max(0, depth - 1)
        elif depth == 0 and token in ("struct", "class", "enum", "union"):
            rest = [t for t in tokens[i + 1 :] if t not in ("class", "struct", "final")]
            if rest and "(" not in tokens:
                return rest[0], False
        elif depth == 0 and token in ("(", "=", "[") and i and tokens[i - 1] not in ("[", "]"):
            if re.match(r"[A-Za-z_]", tokens[i - 1]):
                return tokens[i - 1], False
    return (tokens[-1], False) if tokens and re.match(r"[A-Za-z_]", tokens[-1]) else (None, False)


def names(text):
    """Names that this file keeps to itself, and names that it borrows at namespace scope."""
    own = set(re.findall(r"^[ \t]*#[ \t]*define[ \t]+(\w+)", text, flags=re.M))
    borrowed = set()
    scopes, statement, skip = [], [], 0  # skip: depth inside a body or an initialiser
    for token in TOKEN.findall(bare(text)):
        if skip:
            skip += (token == "{") - (token == "}")
            if skip == 0 and token == "}" and statement and ("(" in statement or statement[-1:] == ["="]):
                statement = finish(statement, scopes, own, borrowed)
            continue
        if token == "{":
            if "namespace" in statement:
                scopes.append(statement[-1] if statement[-1] != "namespace" else "")
                statement = []
            elif statement[:2] == ["extern", '"']:
                scopes.append("C")
                statement = []
            else:
                skip = 1
        elif token == "}":
            scopes = scopes[:-1]
            statement = []
        elif token == ";":
            statement = finish(statement, scopes, own, borrowed)
        else:
            statement.append(token)
    return own, borrowed - own


def used(text):
    """What a file calls, and the types and constants that it names, its own among them; members apart."""
    out, before = set(), ""
    tokens = TOKEN.findall(bare(text))
    for token, after in zip(tokens, tokens[1:] + [""]):
        if before not in (".", "->", "::") and re.match(r"[A-Za-z_]", token) and (after == "(" or re.match(r"k?[A-Z]", token)):
            out.add(token)
        before = token
    return out


def finish(statement, scopes, own, borrowed):
    name, only_borrowed = declared(statement)
    if name and name not in WORDS:
        if only_borrowed:
            borrowed.add(name)
        elif "" in scopes or "static" in statement:
            own.add(name)
    return []


def main():
    root, out, most, files = sys.argv[1], sys.argv[2], int(sys.argv[3]), sys.argv[4:]
    units = []  # [files, own names, names used or borrowed]
    for file in sorted(files):
        with open(os.path.join(root, file), encoding="utf-8") as f:
            text = f.read()
        own, borrowed = names(text)
        uses = borrowed | used(text)
        for unit in units:
            if len(unit[0]) < most and not own & (unit[1] | unit[2]) and not uses & unit[1]:
                break
        else:
            unit = [[], set(), set()]
            units.append(unit)
        unit[0].append(file)
        unit[1] |= own
        unit[2] |= uses
    os.makedirs(out, exist_ok=True)
    for i, unit in enumerate(units, 1):
        path = os.path.join(out, f"unit_{i}.cpp")
        text = "// Written by cmake/units.py.\n" + "".join(f'#include "{os.path.relpath(os.path.join(root, file), out)}"\n' for file in unit[0])
        if not os.path.exists(path) or open(path, encoding="utf-8").read() != text:
            with open(path, "w", encoding="utf-8") as f:
                f.write(text)
        print(path)


if __name__ == "__main__":
    main()
