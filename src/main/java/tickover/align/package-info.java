/**
 * Frames of several devices to blocks and captures on one time base.
 *
 * <p>In: what a decoder finds, with the host's arrival times. Out: {@link
 * tickover.align.AlignedBlock}s, in which gaps stand with number and cause, and of these {@link
 * tickover.align.CaptureSignal}s. Read {@link tickover.align.Aligner} first, then {@link
 * tickover.align.ClockTracker} and {@link tickover.align.CaptureAssembler}.
 */
package tickover.align;
