/**
 * Bytes to frames and lines, and the dialogue with a speed adapter.
 *
 * <p>In: bytes, cut anywhere. Out: frames, or the reason why bytes were rejected; bytes in = framed
 * + rejected + pending, always. Read {@link tickover.wire.StreamDecoder} and {@link
 * tickover.wire.FrameSink} first, then {@link tickover.wire.FrameDecoder}. {@link
 * tickover.wire.FrameWriter} is the way back.
 */
package tickover.wire;
