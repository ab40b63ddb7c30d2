/**
 * Sources of bytes: a serial port, a recording, a replay, a simulated probe.
 *
 * <p>In: the outside. Out: chunks of bytes with their host arrival time. Empty until acquisition is
 * built.
 */
package tickover.link;
