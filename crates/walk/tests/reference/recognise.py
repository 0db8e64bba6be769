"""Makes tests/data/recognised.tsv: invented sentences spoken by a synthesiser and written down by a small open recogniser.

espeak-ng 1.51 (Debian), voices en-gb and en-us in turn, 150 words a minute, resampled to 16 kHz with sox; pocketsphinx 5.1.1
(Python package) with the US English model it ships and its default settings. Every third sentence of tests/data/sentences.txt.

    python3 recognise.py ../data/sentences.txt > ../data/recognised.tsv
"""
import re
import subprocess
import sys

from pocketsphinx import Decoder

decoder = Decoder(samprate=16000, loglevel="FATAL")
lines = [line.strip() for line in open(sys.argv[1]) if line.strip() and not line.startswith("#")]
print("said\theard")
for n, line in enumerate(lines[::3]):
    voice = ("en-gb", "en-us")[n % 2]
    spoken = re.sub(r"[\[\]]", "", line)
    speak = subprocess.run(["espeak-ng", "-v", voice, "-s", "150", "--stdout", spoken], capture_output=True, check=True)
    sox = ["sox", "-t", "wav", "-", "-r", "16000", "-b", "16", "-c", "1", "-e", "signed", "-t", "raw", "-", "pad", "0.3", "0.3"]
    raw = subprocess.run(sox, input=speak.stdout, capture_output=True, check=True).stdout
    decoder.start_utt()
    decoder.process_raw(raw, full_utt=True)
    decoder.end_utt()
    print(line, decoder.hyp().hypstr if decoder.hyp() else "", sep="\t", flush=True)
