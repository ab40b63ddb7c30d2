#!/usr/bin/env python3
"""Writes records that are known between their samples, and what they are at even steps of angle.

Run:  python3 src/test/python/order_reference.py > src/test/resources/tickover/order/scipy.txt
Needs numpy and scipy; the first line of the output names scipy's version.  One line per array: name, then values.

Each record is noise of limited bandwidth, periodic in its length, so that its transform knows it everywhere: scipy resamples
it to 64 times the rate, and a quintic spline reads between those.  The shaft turns by turns = f t + a t² / 2.
"""
import numpy as np
import scipy
from scipy import interpolate, signal

RATE_HZ = 1000.0
COUNT = 1024
DENSER = 64


def put(name, values, form='%.9g'):
    print(name, *[form % v for v in np.ravel(values)])


def band_noise(rng, lo_hz, hi_hz):
    """Gaussian noise of rms 1 between two frequencies."""
    spectrum = np.zeros(COUNT // 2 + 1, complex)
    bins = np.fft.rfftfreq(COUNT, 1 / RATE_HZ)
    inside = (bins >= lo_hz) & (bins <= hi_hz)
    spectrum[inside] = rng.standard_normal(inside.sum()) + 1j * rng.standard_normal(inside.sum())
    x = np.fft.irfft(spectrum, COUNT)
    return x / np.sqrt(np.mean(x**2))


def at_angles(x, from_hz, rise_hz_per_s, per_turn):
    """Numbers of the steps 1/per_turn over the middle of the record, and the values there."""
    dense = signal.resample(x, COUNT * DENSER)
    spline = interpolate.make_interp_spline(np.arange(COUNT * DENSER) / DENSER / RATE_HZ, dense, k=5)
    turns = lambda t: from_hz * t + rise_hz_per_s * t**2 / 2
    steps = np.arange(np.ceil(turns(0.2) * per_turn), np.floor(turns(0.8) * per_turn))
    angle = steps / per_turn
    times = (np.sqrt(from_hz**2 + 2 * rise_hz_per_s * angle) - from_hz) / rise_hz_per_s
    return steps, spline(times)


def case(name, rng, from_hz, rise_hz_per_s, per_turn, lo_hz, hi_hz, above_hz):
    """A record whose part from lo_hz to hi_hz must come through, and the rest must not."""
    x = band_noise(rng, lo_hz, hi_hz)
    steps, y = at_angles(x, from_hz, rise_hz_per_s, per_turn)
    if above_hz:
        x = x + band_noise(rng, above_hz, RATE_HZ / 2)
    put(name + '.motion', [from_hz, rise_hz_per_s, per_turn])
    put(name + '.samples', x)
    put(name + '.first', steps[:1])
    put(name + '.values', y)


print('# made by src/test/python/order_reference.py with scipy', scipy.__version__)
rng = np.random.default_rng(20261125)
# More values per turn than samples: the samples' own corner of 500 Hz counts, 0.8 of it passes.
case('dense', rng, 12.0, 9.0, 100, 3.0, 400.0, None)
# Fewer: the corner follows the speed from 6.2 to 9.8 Hz, 99 to 157 Hz; below 0.8 of it passes, above 1.2 stops.
case('sparse', rng, 5.0, 6.0, 32, 3.0, 0.8 * 16 * 5.6, 1.2 * 16 * 11.0)
