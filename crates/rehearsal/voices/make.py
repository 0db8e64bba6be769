"""Makes spoken phrases with the speech synthesisers espeak-ng, flite and festival, for walks with a real synthesiser's voice.

Run: python make.py OUT_FOLDER [rate_hz, default 48000]
Needs espeak-ng, flite, festival and ffmpeg on the path (Debian: apt install espeak-ng flite festival ffmpeg festvox-kdlpc16k
festvox-italp16k festvox-itapc16k festvox-suopuhe-mv festvox-suopuhe-lj). Writes OUT_FOLDER/SET/VOICE/NN.wav,
SET being `tune` and `tune2` (phrases and voices for choosing settings), `held` (other phrases, other voices of the same synthesiser) or
`other` (other phrases, voices of another synthesiser, built from recordings of people). Nothing of it is committed but
`crates/recording/tests/sounds/voices`, which is made by `python make.py --sample`.
"""
import pathlib, subprocess, sys, tempfile

TUNE = """port side garboard, frame four to frame six
starboard bilge plank, forward of the mast
third strake up, between frames nine and ten
keel, aft of the ballast bolt
stem, about a hand above the waterline
that sounds good, crisp all the way
this one is a bit dull, I will come back to it
deadwood, port side, just ahead of the stern post
plank end at the butt block, tap tap
frame twelve, port, below the bilge stringer
the next plank up is the sheer strake
topside planking, starboard quarter
caulking is hard here and the putty has cracked
take a picture of that, would you
I think the paint is thick at this place
transom, outer plank, port corner
floor timber at frame seven, top edge
rudder trunk, inside, looking down
up and down the plank, three blows each
keep back from the props please
hood ends at the stem, planks one to five
what did you get with the meter
about eighteen percent, give or take
that bolt is bleeding rust, note it
put the kettle on, it is cold today
deck beam, port, at the cabin side
back to the bilge, starboard, plank six
quick look at the scarph in the keel
it could be loose or it could be soft
dock it and cut it back to good wood
good, good, good, and not so good
top plank, third from the bow, decked over
pick it out with the point of the spike
chalk a cross there for the yard to open
at the turn of the bilge, between two frames
broad strake, port, from the stem to frame three""".split("\n")
HELD = """garboard, starboard, frame eight
second plank, port bow, close to the stem
backbone at the mast step, from below
it rings well enough, nothing odd
tapped it twice and I do not like it
check the fastenings in that butt tomorrow
wet paint, patch of filler, probably a graving piece
stern post, just over the heel
port quarter, fourth strake, by the chain plate
can you hold the lamp a little closer
big crack in the stopping, keep going
starboard topsides, between frame two and frame five
not a lot of clearance under this keel
the rot starts at the deck and works down
thick coat of tar, hard to say
that is a replaced plank, different timber
look at the back of it from inside
put it down as not seen
bit of a drip at the cutlass bearing
hit it again, lower down""".split("\n")
ESPEAK = {
    "tune": [("en-us", 165, 45), ("en-gb", 150, 40), ("en-gb-scotland", 170, 35), ("en-us+f2", 170, 55), ("en-gb+m3", 155, 30),
             ("en-us+m7", 180, 50), ("en-gb-x-rp+f4", 160, 60), ("en-029", 150, 45), ("en-us+croak", 160, 40),
             ("en-gb-x-gbclan+m5", 185, 45), ("en-gb+m1", 130, 55), ("en-us+f5", 195, 40), ("en-us+whisper", 160, 50),
             ("de", 160, 45), ("nl+m4", 165, 40), ("fr", 165, 50)],
    "held": [("en-gb-x-gbcwmd", 160, 42), ("en-us+m4", 150, 48), ("en-gb+f3", 175, 52), ("en-us+m2", 190, 36),
             ("en-gb-x-rp", 155, 50), ("en-gb-scotland+f1", 165, 45)],
}
FESTIVAL = {"ked": "voice_ked_diphone", "lp": "voice_lp_diphone", "pc": "voice_pc_diphone", "mv": "voice_hy_fi_mv_diphone",
            "lj": "voice_suo_fi_lj_diphone"}
FLITE = {"tune": ["awb", "slt"], "other": ["kal", "rms", "kal16"]}
SAMPLE = [("en-gb-x-gbcwmd", 160, 42), ("en-us+m4", 150, 48)]


def run(words, target, rate, synth):
    with tempfile.TemporaryDirectory() as folder:
        raw = f"{folder}/raw.wav"
        subprocess.run([*synth, raw] if synth[0] == "espeak-ng" else [*synth, "-o", raw], check=True, input=words.encode(),
                       stderr=subprocess.DEVNULL, stdout=subprocess.DEVNULL)
        target.parent.mkdir(parents=True, exist_ok=True)
        subprocess.run(["ffmpeg", "-v", "error", "-y", "-i", raw, "-ac", "1", "-ar", str(rate), "-sample_fmt", "s16", str(target)], check=True)


def espeak(voice, speed, pitch):
    return ["espeak-ng", "-v", voice, "-s", str(speed), "-p", str(pitch), "--stdin", "-w"]


if sys.argv[1] == "--sample":
    here = pathlib.Path(__file__).parents[2] / "recording/tests/sounds/voices"
    for k, voice in enumerate(SAMPLE):
        for i, words in enumerate(HELD[k::4][:5]):
            run(words, here / f"{voice[0].replace('+', '-')}-{i}.flac", 16000, espeak(*voice))
    sys.exit()
out, rate = pathlib.Path(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 48000
for group, voices in ESPEAK.items():
    for voice in voices:
        for i, words in enumerate(TUNE if group == "tune" else HELD):
            run(words, out / group / voice[0].replace("+", "-") / f"{i:02}.wav", rate, espeak(*voice))
for group, voices in FLITE.items():
    for voice in voices:
        for i, words in enumerate(TUNE if group == "tune" else HELD):
            run(words, out / group / f"flite-{voice}" / f"{i:02}.wav", rate, ["flite", "-voice", voice, "-t", words])
for voice, call in FESTIVAL.items():
    for i, words in enumerate(TUNE):
        run(words, out / "tune2" / f"festival-{voice}" / f"{i:02}.wav", rate, ["text2wave", "-eval", f"({call})"])
