"""The same work with librosa: onsets, and of each onset the features that both know.

Run: OMP_NUM_THREADS=1 OPENBLAS_NUM_THREADS=1 NUMBA_NUM_THREADS=1 taskset -c 0 python librosa_side.py FILE.wav
FILE.wav is written by `cargo bench -p sounding --profile dev -- FILE.wav`. A first pass warms the caches and is not counted.
"""
import sys, time
import librosa, numpy as np, soundfile

y, sr = soundfile.read(sys.argv[1], dtype="float32")


def work():
    onsets = librosa.onset.onset_detect(y=y, sr=sr, hop_length=256, units="samples")
    rows = []
    for t in onsets:
        part = y[max(0, t - 48) : t + 2832]
        if len(part) < 2880:
            continue
        S = np.abs(librosa.stft(part, n_fft=8192, win_length=2880, hop_length=8192, center=True))[:, :1]
        rows.append([librosa.feature.spectral_centroid(S=S, sr=sr)[0, 0], librosa.feature.spectral_bandwidth(S=S, sr=sr)[0, 0],
                     librosa.feature.spectral_rolloff(S=S, sr=sr)[0, 0], librosa.feature.spectral_flatness(S=S)[0, 0],
                     *librosa.feature.mfcc(S=librosa.power_to_db(librosa.feature.melspectrogram(S=S**2, sr=sr, n_mels=26)), n_mfcc=13)[:, 0],
                     librosa.feature.zero_crossing_rate(part, frame_length=1440, hop_length=1440)[0, 0]])
    return onsets, rows


work()
times = []
for _ in range(3):
    start = time.perf_counter()
    onsets, rows = work()
    times.append(time.perf_counter() - start)
print(f"librosa {librosa.__version__}: {len(y) / sr / np.median(times):.1f} x real time ({len(onsets)} onsets in {len(y) / sr:.0f} s)")
