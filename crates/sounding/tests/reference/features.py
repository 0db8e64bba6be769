"""Reference for spectra and features: numpy, scipy and librosa on the same signals. Run: python features.py > features.csv

Case k is a sum of three damped sines and a repeatable noise, 9600 + 6432 samples at 48 kHz, the onset at sample 9600; the test
makes the same signals. The spectrum is that of 60 ms from 1 ms before the onset under the falling half of a Hann window,
padded to 8192; no noise is subtracted here.
"""
import librosa, numpy as np, scipy
from scipy import fft, signal, stats

RATE, LEAD, TAIL, FRAME, N = 48000, 9600, 6432, 2880, 8192


def case(k):
    x = np.zeros(LEAD + TAIL)
    t = np.arange(TAIL) / RATE
    for i in range(3):
        f, alpha, a = 300.0 + 410.0 * k + 977.0 * i, 60.0 + 35.0 * k + 90.0 * i, 0.5 / (1 + i)
        x[LEAD:] += a * np.exp(-alpha * t) * np.sin(2 * np.pi * f * t)
    state, noise = 12345 + k, np.zeros(len(x))
    for n in range(len(x)):
        state = (1103515245 * state + 12345) % 2147483648
        noise[n] = state / 2147483648 - 0.5
    return x + 0.002 * noise


print(f"# numpy {np.__version__}, scipy {scipy.__version__}, librosa {librosa.__version__}; made by features.py")
print("case,feature,value")
for k in range(4):
    x = case(k)
    window = 0.5 + 0.5 * np.cos(np.pi * np.arange(FRAME) / FRAME)
    part = x[LEAD - 48 : LEAD - 48 + FRAME] * window
    P = np.abs(fft.rfft(part, N)) ** 2
    f = fft.rfftfreq(N, 1 / RATE)
    inside = (f >= 150) & (f <= 10000)
    S, F = P[inside][:, None], f[inside]
    show = lambda name, v: print(k, name, f"{float(v):.12g}", sep=",")
    for b in (40, 300, 1111):
        show(f"power_{b}", P[b])
    show("centroid_hz", librosa.feature.spectral_centroid(S=S, freq=F)[0, 0])
    show("bandwidth_hz", librosa.feature.spectral_bandwidth(S=S, freq=F)[0, 0])
    show("rolloff_hz", librosa.feature.spectral_rolloff(S=S, freq=F, roll_percent=0.85)[0, 0])
    show("flatness", librosa.feature.spectral_flatness(S=S, amin=1e-300, power=1.0)[0, 0])
    mel = librosa.filters.mel(sr=RATE, n_fft=N, n_mels=26, fmin=150, fmax=8000, htk=True, norm=None, dtype=np.float64) @ P
    for i, c in enumerate(fft.dct(np.log(mel), type=2, norm="ortho")[1:13]):
        show(f"mfcc_{i + 1}", c)
    y = x[LEAD : LEAD + 2400]
    show("kurtosis", stats.kurtosis(y))
    show("crest_db", 10 * np.log10(np.max(y**2) / np.mean(y**2)))
    show("time_centroid_ms", 1000 * np.sum(np.arange(3840) / RATE * x[LEAD : LEAD + 3840] ** 2) / np.sum(x[LEAD : LEAD + 3840] ** 2))
    sos = np.vstack([signal.butter(4, 350, "high", fs=RATE, output="sos"), signal.butter(4, 9000, "low", fs=RATE, output="sos")])
    show("band_energy", np.sum(signal.sosfilt(sos, x) ** 2))
    show("band_sample", signal.sosfilt(sos, x)[LEAD + 100])
