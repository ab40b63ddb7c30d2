/**
 * Signal-processing kernels that know nothing of engines.
 *
 * <p>In: arrays of samples. Out: spectra, envelopes, filtered samples, statistics. Read {@code
 * Window} first: its conventions hold for the whole package.
 */
package tickover.dsp;
