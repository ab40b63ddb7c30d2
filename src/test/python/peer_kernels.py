"""What an analyst's script does, with NumPy and SciPy, in the plainest way that SciPy makes quick.

Each function is one kernel; compare_kernels.py times it beside Tickover's.
"""
import numpy as np
from scipy import fft
from scipy.interpolate import CubicSpline
from scipy.linalg import solveh_banded
from scipy.signal import firwin, upfirdn


def resample(x, rate_hz, pulses_s, per_turn):
    """Samples at even steps of angle: cubic splines through pulses and through samples."""
    turns = len(pulses_s) - 1
    times = CubicSpline(np.arange(turns + 1), pulses_s)(np.arange(turns * per_turn) / per_turn)
    return CubicSpline(np.arange(len(x)) / rate_hz, x)(times)


def spectrogram(y, frame, hop):
    """Amplitudes of Hann frames, one row per frame."""
    window = np.hanning(frame)
    frames = np.lib.stride_tricks.sliding_window_view(y, frame)[::hop]
    return np.abs(fft.rfft(frames * window, axis=1)) * (2 / window.sum())


def envelope_spectrum(x, rate_hz, lo_hz, hi_hz):
    """Spectrum of the squared magnitude of the analytic signal of a band, at the full rate."""
    size = fft.next_fast_len(len(x), real=True)
    spectrum = fft.rfft(x, size)
    lo, hi = int(lo_hz * size / rate_hz), int(hi_hz * size / rate_hz)
    band = np.zeros(size, complex)
    band[lo:hi] = 2 * spectrum[lo:hi]
    z = fft.ifft(band, overwrite_x=True)[:len(x)]
    envelope = z.real**2 + z.imag**2
    return np.abs(fft.rfft(envelope - envelope.mean())) / len(x) * 2


HALF = firwin(17, 0.4)
THIRD = firwin(25, 0.8 / 3)
LOW = HALF * np.exp(2j * np.pi * np.arange(17) / 8)
HIGH = HALF * np.exp(2j * np.pi * np.arange(17) * 3 / 8)
THIRDS = [THIRD * np.exp(2j * np.pi * np.arange(25) * (2 * j + 1) / 12) for j in range(3)]


def kurtogram(x, levels):
    """Rows of level, lower edge in cycles per sample, kurtosis."""

    def kurtosis(z, trim, of_noise):
        z = z[trim:len(z) - trim]
        e = z.real**2 + z.imag**2 if np.iscomplexobj(z) else z * z
        return (e @ e) / len(e) / e.mean()**2 - of_noise

    x = x - x.mean()
    rows = [(0.0, 0.0, kurtosis(x, 0, 3))]
    bands = [x]
    for level in range(1, levels + 1):
        halves = []
        for i, band in enumerate(bands):
            for j, taps in enumerate(THIRDS):
                z = upfirdn(taps, band, 1, 3)
                edge = (3 * i + j) / 3 / 2**level
                rows.append((level - 1 + np.log2(3), edge, kurtosis(z, 9, 2)))
            low = upfirdn(LOW, band, 1, 2)
            high = upfirdn(HIGH, band, 1, 2)
            high[1::2] *= -1
            for j, z in enumerate((low, high)):
                rows.append((float(level), (2 * i + j) / 2**(level + 1), kurtosis(z, 9, 2)))
            halves += [low, high]
        bands = halves
    return rows


def follow_order(x, rate_hz, phase_rad, bandwidth_hz):
    """Vold-Kalman filter of the second generation, second difference, at the full rate."""
    n = len(x)
    r2 = (np.sqrt(2) - 1) / (2 - 2 * np.cos(np.pi * bandwidth_hz / rate_hz))**2
    bands = np.zeros((3, n))
    bands[0] = 6 * r2
    bands[1] = -4 * r2
    bands[2] = r2
    # The rows of D'D at either end have fewer differences to sum.
    bands[0, [0, -1]] = r2
    bands[0, [1, -2]] = 5 * r2
    bands[1, [0, -2]] = -2 * r2
    bands[0] += 1
    right = np.empty((n, 2), order="F")
    right[:, 0] = 2 * x * np.cos(phase_rad)
    right[:, 1] = -2 * x * np.sin(phase_rad)
    a = solveh_banded(
        bands, right, lower=True, overwrite_ab=True, overwrite_b=True, check_finite=False)
    return a[:, 0] + 1j * a[:, 1]
