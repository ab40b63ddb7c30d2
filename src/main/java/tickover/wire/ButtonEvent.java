package tickover.wire;

/**
 * A probe's button went down or up.
 *
 * @param tick when, ticks modulo 2^32
 * @param button 0 for the first
 * @param down true if pressed, false if released
 * @param presses presses since power-up, this one included, modulo 2^16
 */
public record ButtonEvent(long tick, int button, boolean down, int presses) {}
