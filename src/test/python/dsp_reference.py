#!/usr/bin/env python3
"""Writes the numbers that DspReferenceTest holds the kernels against.

Run:  python3 src/test/python/dsp_reference.py > src/test/resources/tickover/dsp/scipy.txt
Needs numpy and scipy (made with scipy 1.10.1, numpy 1.24.2).  One line per array: name, then values.
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
put('firwin.lowpass', signal.firwin(41, 0.2, window=('kaiser', 7.0), fs=1))
put('firwin.bandpass', signal.firwin(61, [0.1, 0.2], window=('kaiser', 7.0), fs=1, pass_zero=False))
put('fir.decimated', signal.upfirdn(signal.firwin(41, 0.2, window=('kaiser', 7.0), fs=1), x, 1, 2)[:128])
put('hilbert.squared', np.abs(signal.hilbert(x)) ** 2)
f, p = signal.welch(x, fs=100, window='hann', nperseg=64, noverlap=32, detrend=False)
put('welch', p)
put('kurtosis', [stats.kurtosis(x, fisher=False)])
put('quantiles', np.quantile(x, [0, 0.1, 0.25, 0.5, 0.77, 1]))
put('mad', [stats.median_abs_deviation(x)])
