/**
 * Bytes to frames: framing, checksum, decoding, and the dialogue with a speed adapter.
 *
 * <p>In: bytes. Out: frames, or the reason why bytes were rejected. Empty until acquisition is
 * built.
 */
package tickover.wire;
