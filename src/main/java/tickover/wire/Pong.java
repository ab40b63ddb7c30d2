package tickover.wire;

/**
 * Answer to a ping.
 *
 * @param id from the ping, unsigned
 * @param receivedTick when the ping was received, ticks modulo 2^32
 * @param sentTick when this answer was handed to the line, ticks modulo 2^32
 */
public record Pong(long id, long receivedTick, long sentTick) {}
