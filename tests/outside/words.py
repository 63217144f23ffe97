"""Judges printed texts by outside measures: how hard they are to read, and how their words are spelled.

Usage: words.py FILE LANGUAGE, what `cargo xtask printed` prints. Prints JSON: `grades`, the Flesch-Kincaid grade of each
text of ten words and more with its place (by textstat), and `unknown`, each word that the dictionary (pyspellchecker) and
the list words-LANGUAGE.txt do not have, with its first place. Knows nothing of trays.
"""

import json
import re
import sys
from pathlib import Path

import textstat
from spellchecker import SpellChecker

# Shorter texts have no grade: one long word decides it.
FEWEST_WORDS = 10


def texts(lines):
    """Texts with their places: strings, paragraphs and comments, without code."""
    paragraph, at = [], None
    fenced = False
    for path, number, text in lines:
        place = f"{path}:{number}"
        if path.endswith((".ron",)):
            code = text.split("//")[0] if text.lstrip().startswith("//") else text
            for string in re.findall(r'"((?:[^"\\]|\\.)*)"(?!:)', code):
                # A formula is no sentence.
                if " " in string and not re.search(r"\w\(", string):
                    yield place, string.replace('\\\\"', '"')
            continue
        if path.endswith(".rs") and not text.lstrip().startswith("///"):
            yield place, re.sub(r"\\n", ". ", text)
            continue
        line = text.strip()
        if path.endswith(".kdl"):
            line = line.split("//", 1)[1].strip() if "//" in line else ""
        line = line.removeprefix("///").strip()
        if line.startswith("```"):
            fenced = not fenced
            line = ""
        # Headings, tables, pictures and formulas.
        of_no_sentence = fenced or line.startswith(("#", "|", "!", "<")) or path.endswith(".txt") and re.search(r"\S  |^    ", text)
        begins = line.startswith(("- ", "* ")) or path.endswith(".rs")
        if at and (of_no_sentence or begins or not line or not place.startswith(at[0])):
            yield at[1], " ".join(paragraph)
            paragraph, at = [], None
        if line and not of_no_sentence:
            paragraph.append(line.removeprefix("- "))
            at = at or (path, place)
    if at:
        yield at[1], " ".join(paragraph)


def plain(text):
    """A text without code, links and gaps."""
    text = re.sub(r"`[^`]*`", "this", text)
    text = re.sub(r"\]\([^)]*\)", "]", text)
    text = re.sub(r"\{[^{}]*\}", " it ", text)
    text = re.sub(r"\w*[=#/]\S*", "this", text)
    return re.sub(r"[*\[\]_]", " ", text).strip()


def main():
    lines = [line.split("\t", 2) for line in Path(sys.argv[1]).read_text().splitlines()]
    language = sys.argv[2]
    here = Path(__file__).parent
    spelling = SpellChecker(language=language)
    own = (here / f"words-{language}.txt").read_text().split("\n")
    spelling.word_frequency.load_words(word for word in own if word and not word.startswith("#"))
    grades, unknown = [], {}
    for place, text in texts(lines):
        text = plain(text)
        words = re.findall(r"[^\W\d_]+(?:'[^\W\d_]+)?", text)
        if len(words) >= FEWEST_WORDS and re.search(r"[a-z]", text):
            grades.append([textstat.flesch_kincaid_grade(text), place, text])
        for word in spelling.unknown(word for word in words if len(word) > 2):
            unknown.setdefault(word, place)
    grades.sort(reverse=True)
    print(json.dumps({"grades": grades, "unknown": unknown}))


main()
