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


def stems(word):
    for ending in ("s", "es", "ed", "d", "ing", "ly", "er", "ers"):
        if word.endswith(ending) and len(word) - len(ending) >= 3:
            stem = word[: -len(ending)]
            yield stem
            if ending in ("ed", "ing", "er", "ers"):
                yield stem + "e"
                if len(stem) > 3 and stem[-1] == stem[-2]:
                    yield stem[:-1]
            if ending == "es" and stem.endswith("i"):
                yield stem[:-1] + "y"


for word in sorted(band):
    if any(band.get(stem, 9) <= band[word] for stem in stems(word)):
        continue
    print(word, band[word], dictionary.get(word, ""), sep=" " if word in dictionary else " ")
