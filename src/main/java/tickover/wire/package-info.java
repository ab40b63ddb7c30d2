/**
 * Bytes to frames, lines and readings.
 *
 * <p>In: bytes, cut anywhere, and times. Out: frames, lines or the reason why bytes were rejected;
 * bytes in = framed + rejected + pending, always. Read {@link tickover.wire.StreamDecoder} and
 * {@link tickover.wire.FrameSink} first. {@link tickover.wire.FrameDecoder} reads the probe
 * protocol, {@link tickover.wire.TextDecoder} plain text, {@link tickover.wire.ObdDialogue} talks
 * with a speed adapter, {@link tickover.wire.StreamSniffer} says which of them a device needs.
 */
package tickover.wire;
