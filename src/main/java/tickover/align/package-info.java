/**
 * Acceleration and speed of one capture on one time base.
 *
 * <p>In: samples, pulse times, speed readings. Out: {@code CaptureSignal}, which is the class to
 * read first.
 */
package tickover.align;
