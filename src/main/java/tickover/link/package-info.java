/**
 * Sources of bytes: a serial port, a recording, a pseudo-terminal that stands for a device.
 *
 * <p>In: the outside. Out: chunks of bytes with their host arrival time.
 *
 * <p>Read {@link tickover.link.ByteLink} first, then {@link tickover.link.RecordingWriter}. The
 * recording file is described in {@code docs/recording.md}.
 */
package tickover.link;
