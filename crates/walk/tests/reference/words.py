"""Makes data/words.txt: common English words with a band of commonness and a pronunciation.

Words and bands: SCOWL (Spell Checker Oriented Word Lists), sizes 10, 20 and 35, as in Debian's package `scowl` 2020.12.07;
copyright Kevin Atkinson, whose permission notice is in data/NOTICE. Pronunciations: the CMU Pronouncing Dictionary as shipped
in the Python package `pocketsphinx` 5.1.1 (cmudict-en-us.dict; licence in data/NOTICE), one letter a phone.
A word that follows by an ending from a shorter one (plural, past, -ing, -ly) is left out: the program makes it again.

    python3 words.py SCOWL_FOLDER CMUDICT > ../../data/words.txt
"""
import re
import sys

LETTER = dict(zip(
    "AA AE AH AO AW AY EH ER EY IH IY OW OY UH UW B CH D DH F G HH JH K L M N NG P R S SH T TH V W Y Z ZH".split(),
    "A a u O W Y e R E i I o y U x b C d D f g h j k l m n N p r s S t T v w J z Z".split()))

dictionary = {}
for line in open(sys.argv[2]):
    word, *phones = line.split()
    if re.fullmatch(r"[a-z]+", word):
        dictionary.setdefault(word, "".join(LETTER[p] for p in phones))

band = {}
for number, size in enumerate((10, 20, 35), 1):
    for kind in ("english", "american", "british"):
        for word in open(f"{sys.argv[1]}/{kind}-words.{size}", encoding="latin-1"):
            word = word.strip()
            if re.fullmatch(r"[a-z]+", word) and (len(word) > 1 or word in "ai"):
                band.setdefault(word, number)


# The endings by which the program makes words from listed ones: what may stand in their place, and what they add in phones.
# The same rules are in src/phones/english.rs.
ENDINGS = [
    ("ies", ("y",), "z"), ("es", ("e", ""), "iz"), ("s", ("",), "z"), ("ed", ("e", ""), "d"), ("ing", ("", "e"), "iN"),
    ("ly", ("",), "lI"), ("ers", ("", "e"), "Rz"), ("er", ("", "e"), "R"),
]
kept = {}


def derived(word):
    """Returns the listed word and the ending's phones from which the program would make a word."""
    for ending, instead, adds in ENDINGS:
        stem = word[: -len(ending)]
        if not word.endswith(ending) or len(stem) < 3:
            continue
        for end in instead:
            if stem + end in kept:
                return stem + end, adds
        if len(stem) > 3 and stem[-1] == stem[-2] and ending != "s" and stem[:-1] in kept:
            return stem[:-1], adds
    return None


def said(word, stem, adds):
    phones = kept[stem]
    if not phones:
        return None
    hisses, hard = phones[-1] in "szSZCj", phones[-1] in "pkftTsSC"
    if adds in ("z", "iz"):
        return phones + ("iz" if hisses else "s" if hard else "z")
    if adds == "d":
        return phones + ("id" if phones[-1] in "td" else "t" if hard else "d")
    return phones + adds


for word in sorted(band, key=lambda word: (len(word), word)):
    phones = dictionary.get(word, "")
    made = derived(word)
    if made and band[made[0]] <= band[word] and (not phones or said(word, *made) == phones):
        continue
    kept[word] = phones
for word in sorted(kept):
    print(word, band[word], kept[word] or "", sep=" ", end="\n")
