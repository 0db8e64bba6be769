"""Makes impacts.* from perc_impact2.flac: the sound at 0.5, 1.3 and 2.1 s of 3 s, 44.1 kHz. Run: python impacts.py"""
import pathlib, subprocess
import numpy as np, soundfile

here = pathlib.Path(__file__).parent.parent / "sounds"
sound, rate = soundfile.read(here / "perc_impact2.flac")
sound = sound if sound.ndim == 1 else sound.mean(axis=1)
sound = 0.6 * sound / np.abs(sound).max()
out = np.zeros(3 * rate)
for at in (0.5, 1.3, 2.1):
    part = out[int(at * rate) :][: len(sound)]
    part += sound[: len(part)]
soundfile.write("/tmp/impacts.wav", out, rate, subtype="PCM_16")
for name, words in {"flac": ["-c:a", "flac"], "mp3": ["-b:a", "128k"], "ogg": ["-c:a", "libvorbis", "-q:a", "4"],
                    "m4a": ["-c:a", "aac", "-b:a", "96k"], "mov": ["-c:a", "aac", "-b:a", "96k"]}.items():
    subprocess.run(["ffmpeg", "-v", "error", "-y", "-i", "/tmp/impacts.wav", *words, "-map_metadata", "-1", str(here / f"impacts.{name}")], check=True)
