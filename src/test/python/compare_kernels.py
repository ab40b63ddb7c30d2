#!/usr/bin/env python3
"""Times Tickover's kernels and an analyst's NumPy and SciPy script in turn, on one core, on one record.

    mvn test-compile
    mvn dependency:build-classpath -Dmdep.outputFile=target/classpath -Dmdep.includeScope=test
    python3 src/test/python/compare_kernels.py [rounds]

The record: 60 s at 25.6 kHz, run-up from 900 to 3000 rpm, one pulse per turn, three orders, three
lines of each of eight belt-driven parts, knocks that ring at 4.2 kHz, noise. Both sides get the same numbers. Each round runs every kernel once on
either side; the figures are medians of processor time over the rounds (5 at least), after a warm-up.
Before that the first call of each of Tickover's kernels in a fresh virtual machine is timed too.
Outputs are compared in the same run; exit code 1 if any differs by more than is allowed.

The last line is the whole analysis of the record: pulses to angle, order spectra, the level of every
part, kurtogram, envelope spectrum of its best band. The script reads levels off a mean order spectrum
of 64 turns: a Vold-Kalman filter per line would take it many times as long.
"""
import argparse
import os
import subprocess
import sys
import tempfile
import time

os.environ["OMP_NUM_THREADS"] = os.environ["OPENBLAS_NUM_THREADS"] = "1"
if hasattr(os, "sched_setaffinity"):
    os.sched_setaffinity(0, {min(os.sched_getaffinity(0))})

import numpy as np  # noqa: E402, after the number of threads is set
from scipy import fft as sfft  # noqa: E402
from scipy.signal import lfilter  # noqa: E402

ROOT = os.path.abspath(os.path.join(os.path.dirname(__file__), "..", "..", ".."))
SHARED = os.path.join(ROOT, "..", "shared", "peer")


def load_peer():
    """The kernels beside the checkout if they are there, else those written for this comparison."""
    if not os.path.exists(os.path.join(SHARED, "kernels.py")):
        import peer_kernels
        return peer_kernels, "peer_kernels.py"
    sys.path.insert(0, SHARED)
    sys.dont_write_bytecode = True
    import kernels

    class Shared:
        resample = staticmethod(kernels.angular_resample)
        envelope_spectrum = staticmethod(kernels.ses_bandpass)
        follow_order = staticmethod(kernels.vold_kalman2)

        @staticmethod
        def spectrogram(y, frame, hop):
            return kernels.order_spectrogram(y, PER_TURN, frame // PER_TURN, 1 - hop / frame)

        @staticmethod
        def kurtogram(x, levels):
            return [(v[0], v[1], v[3]) for v in kernels.fast_kurtogram(x, levels)]

    return Shared, "../shared/peer/kernels.py"

RATE_HZ = 25600
LENGTH_S = 60
FROM_HZ, TO_HZ = 15.0, 50.0
RISE = (TO_HZ - FROM_HZ) / LENGTH_S
PER_TURN = 256
FRAME = 16 * PER_TURN
BAND_HZ = (3400, 5000)
LEVELS = 6
BANDWIDTH_HZ = 8.0
ORDERS = {1: 1.0, 2: 0.5, 5.4: 0.2}
WARM_UP = 8
# Turns of eight belt-driven parts per crank turn, and the amplitudes of a turn's first multiples.
PARTS = (1.32, 1.48, 1.72, 2.14, 2.33, 2.5, 2.82, 3.13)
LINES = (0.12, 0.05, 0.03)
LEVEL_TURNS = 64

NAMES = {
    "a": "pulses to even steps of angle",
    "b": "order spectra, 16 turns, Hann, 75 %",
    "c": "squared envelope spectrum, one band",
    "d": "kurtogram to level 6",
    "e": "Vold-Kalman, order 1, 8 Hz",
}
WHOLE = {"f": "whole record"}


def time_at(turns):
    return (np.sqrt(FROM_HZ**2 + 2 * RISE * turns) - FROM_HZ) / RISE


def make_record():
    rng = np.random.default_rng(1)
    t = np.arange(LENGTH_S * RATE_HZ) / RATE_HZ
    turns = FROM_HZ * t + RISE / 2 * t * t
    x = sum(a * np.sin(2 * np.pi * k * turns + k) for k, a in ORDERS.items())
    for part in PARTS:
        for k, a in enumerate(LINES, 1):
            x += a * np.sin(2 * np.pi * k * part * turns + k * part)
    knocks = np.zeros(len(t))
    knocks[(time_at(np.arange(1, turns[-1] * 3.585) / 3.585) * RATE_HZ).astype(int)] = 1
    pole = np.exp((-900 + 2j * np.pi * 4200) / RATE_HZ)
    x += lfilter([0, pole.imag], [1, -2 * pole.real, abs(pole)**2], knocks)
    x += 0.3 * rng.standard_normal(len(t))
    return x, time_at(np.arange(int(turns[-1]) + 1)), 2 * np.pi * turns


def part_levels(y):
    """Rms of each part: main lobes of its lines in a mean order spectrum less what lies beside."""
    n = LEVEL_TURNS * PER_TURN
    w = np.hanning(n)
    frames = np.lib.stride_tricks.sliding_window_view(y, n)[::n // 2]
    spectra = sfft.rfft(frames * w, axis=1)
    power = np.mean(spectra.real**2 + spectra.imag**2, axis=0) * 2 / w.sum()**2
    levels = []
    for part in PARTS:
        square = 0
        for k in range(1, len(LINES) + 1):
            at = int(round(k * part * LEVEL_TURNS))
            beside = np.mean(np.r_[power[at - 5:at - 2], power[at + 3:at + 6]])
            # The noise bandwidth of a Hann window is 1.5 bins.
            square += (np.sum(power[at - 2:at + 3]) - 5 * beside) / 1.5
        levels.append(np.sqrt(max(0, square)))
    return np.array(levels)


def whole(peer, x, pulses):
    """The script's whole analysis: order spectra, part levels, best band, its envelope spectrum."""
    y = peer.resample(x, RATE_HZ, pulses, PER_TURN)
    spectra = peer.spectrogram(y, FRAME, FRAME // 4)
    levels = part_levels(y)
    level, lo, _ = max(peer.kurtogram(x, LEVELS)[1:], key=lambda v: v[2])
    band = np.array([lo, lo + 0.5 / 2**level]) * RATE_HZ
    # Edges that are thirds of a band must not fall short of their bin.
    envelope = peer.envelope_spectrum(x, RATE_HZ, *(band + 1e-6))
    return spectra, levels, band, envelope


class Partner:
    """Tickover's side: a virtual machine that runs a kernel when told to."""

    def __init__(self, folder):
        classpath = os.environ.get("TICKOVER_CLASSPATH")
        if not classpath:
            with open(os.path.join(ROOT, "target", "classpath"), encoding="utf-8") as f:
                classpath = f"{ROOT}/target/test-classes:{ROOT}/target/classes:{f.read().strip()}"
        self.process = subprocess.Popen(
            ["java", "-XX:+UseSerialGC", "-Xmx2g", "-cp", classpath,
             "tickover.bench.KernelPartner", folder],
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)

    def run(self, kernel):
        self.process.stdin.write(kernel + "\n")
        self.process.stdin.flush()
        answer = self.process.stdout.readline()
        if not answer:
            sys.exit("compare_kernels: Tickover's side ended; its message is above")
        return float(answer)

    def stop(self):
        self.process.stdin.close()
        self.process.wait()


def amplitudes(y, start_turns):
    """Amplitude of each order, 20 turns left out at either end."""
    turns = start_turns + np.arange(len(y)) / PER_TURN
    inner = slice(20 * PER_TURN, -20 * PER_TURN)
    columns = [f(2 * np.pi * k * turns[inner]) for k in ORDERS for f in (np.cos, np.sin)]
    fit = np.linalg.lstsq(np.stack(columns, axis=1), y[inner], rcond=None)[0]
    return np.hypot(fit[0::2], fit[1::2])


def differences(folder, ours, theirs):
    """Largest difference of each kernel's outputs, what is allowed, and of what."""
    a = amplitudes(ours["a"][1:], ours["a"][0])
    # Their spline lets noise above the angular Nyquist order fold in.
    a = np.max(np.abs(a - amplitudes(theirs["a"], 0)))
    yield "a", a, 2e-3, "of the amplitudes of orders, the largest of which is 1"
    rows = len(theirs["b"])
    b = np.sqrt(2) * ours["b"].reshape(-1, FRAME // 2 + 1)[:rows, 1:-1]
    scale = theirs["b"].max()
    # Their window is symmetric, ours periodic: one part in the length of a frame.
    yield "b", np.max(np.abs(b - theirs["b"][:len(b), 1:-1])) / scale, 1e-3, "of the largest amplitude"
    n = int((BAND_HZ[1] - BAND_HZ[0]) * LENGTH_S)
    c = np.max(np.abs(ours["c"][:n] - theirs["c"][:n])) / theirs["c"].max()
    yield "c", c, 1e-9, "of the largest amplitude"
    d = {(round(v[0], 6), round(v[1], 3)): v[2] for v in ours["d"].reshape(-1, 3)}
    d = max(abs(d[round(v[0], 6), round(v[1] * RATE_HZ, 3)] - v[2]) for v in theirs["d"])
    yield "d", d, 1e-9, "kurtosis"
    times, rms, phase = ours["e"].reshape(3, -1)
    inner = (times > 1) & (times < LENGTH_S - 1)
    e = np.sqrt(2) * rms * np.exp(1j * np.radians(phase))
    apart = np.abs(e - theirs["e"][np.rint(times * RATE_HZ).astype(int)])
    yield "e", np.max(apart[inner]), 1e-3, "of amplitude 1, a second from the ends"
    _, levels, band, envelope = theirs["f"]
    ours = np.split(ours["f"], [2, 2 + len(PARTS)])
    yield "f", np.max(np.abs(ours[0] - band)), 1e-3, "Hz, edges of the best band"
    # Two estimates from other frames each see noise of their own, some parts in a thousand.
    yield "f", np.max(np.abs(ours[1] / levels - 1)), 2e-2, "of a part's level"
    real = np.sqrt(np.sum(np.square(LINES)) / 2)
    yield "f", np.max(np.abs(ours[1] / real - 1)), 2e-2, "of a part's real level"
    n = int((band[1] - band[0]) * LENGTH_S)
    apart = np.max(np.abs(ours[2][:n] - envelope[:n])) / envelope.max()
    yield "f", apart, 1e-9, "of the largest amplitude of the envelope spectrum"


def main():
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("rounds", type=int, nargs="?", default=7, help="5 or more (default 7)")
    rounds = max(5, parser.parse_args().rounds)
    peer, source = load_peer()
    x, pulses, phase = make_record()
    y = peer.resample(x, RATE_HZ, pulses, PER_TURN)
    script = {
        "a": lambda: peer.resample(x, RATE_HZ, pulses, PER_TURN),
        "b": lambda: peer.spectrogram(y, FRAME, FRAME // 4),
        "c": lambda: peer.envelope_spectrum(x, RATE_HZ, *BAND_HZ),
        "d": lambda: peer.kurtogram(x, LEVELS),
        "e": lambda: peer.follow_order(x, RATE_HZ, phase, BANDWIDTH_HZ),
        "f": lambda: whole(peer, x, pulses),
    }
    with tempfile.TemporaryDirectory() as folder:
        for name, values in (("x", x), ("pulses", pulses), ("y", y)):
            values.astype("<f8").tofile(os.path.join(folder, name + ".f64"))
        partner = Partner(folder)
        first = {k: partner.run(k) for k in script}
        for kernel in script:
            for _ in range(WARM_UP):
                partner.run(kernel)
        ours, theirs, answers = ({k: [] for k in script} for _ in range(3))
        for _ in range(rounds):
            for kernel, run in script.items():
                ours[kernel].append(partner.run(kernel))
                before = time.thread_time()
                answers[kernel] = run()
                theirs[kernel].append(time.thread_time() - before)
        partner.stop()
        written = {k: np.fromfile(os.path.join(folder, k + ".out"), "<f8") for k in script}
    print(f"processor time in ms, medians of {rounds} rounds in turn; script: {source}")
    print(f"{'kernel':42s} {'first':>8s} {'Tickover':>9s} {'script':>8s} {'ratio':>6s}")
    total = np.zeros(3)
    for kernel, name in (NAMES | WHOLE).items():
        row = np.array([first[kernel], np.median(ours[kernel]), np.median(theirs[kernel])]) * 1e3
        if kernel in WHOLE:
            print(f"{'sum':42s} {total[0]:8.1f} {total[1]:9.1f} {total[2]:8.1f}"
                  f" {total[2] / total[1]:6.1f}")
        total += row
        print(f"{kernel} {name:40s} {row[0]:8.1f} {row[1]:9.1f} {row[2]:8.1f} {row[2] / row[1]:6.1f}")
    wrong = 0
    for kernel, apart, allowed, what in differences(folder, written, answers):
        wrong += not apart <= allowed
        print(f"{kernel} differs by {apart:.1e} {what}, allowed {allowed:.0e}")
    sys.exit(1 if wrong else 0)


if __name__ == "__main__":
    main()
