#!/usr/bin/env python3
"""Writes the numbers that DspReferenceTest holds the kernels against.

Run:  python3 src/test/python/dsp_reference.py > src/test/resources/tickover/dsp/scipy.txt
Needs numpy and scipy; the first line of the output names scipy's version.  One line per array: name, then values.
"""
import numpy as np
import scipy
from scipy import signal, stats


def put(name, values):
    print(name, *[repr(float(v)) for v in np.ravel(values)])


print('# made by src/test/python/dsp_reference.py with scipy', scipy.__version__)
rng = np.random.default_rng(20260304)
x = rng.standard_normal(256)
put('x256', x)
X = np.fft.rfft(x)
put('rfft256.re', X.real)
put('rfft256.im', X.imag)
y = x[:45]
Y = np.fft.rfft(y)
put('rfft45.re', Y.real)
put('rfft45.im', Y.imag)
for w in ('hann', 'hamming', 'blackmanharris', 'flattop'):
    put('window.' + w + '.periodic', signal.get_window(w, 16, fftbins=True))
    put('window.' + w + '.symmetric', signal.get_window(w, 16, fftbins=False))
put('window.kaiser', signal.get_window(('kaiser', 8.6), 17, fftbins=False))
put('i0', scipy.special.i0([0, 0.5, 3, 9, 20]))
put('kaiser_beta', [signal.kaiser_beta(a) for a in (20, 30, 60, 100)])
put('kaiser_atten', [signal.kaiser_atten(n, w) for n, w in ((61, 0.1), (101, 0.2), (301, 0.03))])
# attenuation in dB, transition over half the rate: taps, beta
for a, w in ((40, 0.2), (60, 0.1), (80, 0.05), (106, 0.02)):
    put('kaiserord.%d' % a, signal.kaiserord(a, w))
put('firwin.lowpass', signal.firwin(41, 0.2, window=('kaiser', 7.0), fs=1))
put('firwin.bandpass', signal.firwin(61, [0.1, 0.2], window=('kaiser', 7.0), fs=1, pass_zero=False))
put('fir.decimated', signal.upfirdn(signal.firwin(41, 0.2, window=('kaiser', 7.0), fs=1), x, 1, 2)[:128])
put('hilbert.squared', np.abs(signal.hilbert(x)) ** 2)
# the length and beta that kaiserord gives for 60 dB and a transition of 0.05 of the rate, made odd
taps, beta = signal.kaiserord(60, 0.1)
put('firwin.kaiserord', signal.firwin(taps | 1, 0.2, window=('kaiser', beta), fs=1))
put('decimate.5', signal.decimate(x, 5, ftype=signal.dlti(signal.firwin(31, 0.08, window=('kaiser', 6.0), fs=1), 1), zero_phase=False))
f, p = signal.welch(x, fs=100, window='hann', nperseg=64, noverlap=32, detrend=False)
put('welch', p)
for w in ('boxcar', 'hamming', 'blackmanharris', 'flattop'):
    f, p = signal.welch(x, fs=100, window=w, nperseg=45, noverlap=30, detrend=False)
    put('welch.' + w, p)
f, p = signal.welch(x, fs=100, window='flattop', nperseg=64, noverlap=32, detrend=False, scaling='spectrum')
put('welch.spectrum', p)
put('kurtosis', [stats.kurtosis(x, fisher=False)])
put('quantiles', np.quantile(x, [0, 0.1, 0.25, 0.5, 0.77, 1]))
put('mad', [stats.median_abs_deviation(x)])
