/**
 * From time to shaft angle to orders.
 *
 * <p>In: a {@code CaptureSignal}. Out: shaft angle with its uncertainty, order spectra, waterfalls,
 * tracked orders. Read {@code ShaftAngle} first.
 */
package tickover.order;
