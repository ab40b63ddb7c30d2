package tickover.sim;

/**
 * White noise that depends on nothing but the time and the axis, so that any stretch can be had.
 */
final class SceneNoise {
    private SceneNoise() {}

    /**
     * Draws the noise of a moment.
     *
     * @param timeS time, s; told apart to 0.1 µs
     * @param axis 0 to 2
     * @return uniform with mean 0 and variance 1
     */
    static double at(double timeS, int axis) {
        long z = (Math.round(timeS * 1e7) * 3 + axis) * 0x9E3779B97F4A7C15L;
        z = (z ^ (z >>> 30)) * 0xBF58476D1CE4E5B9L;
        z = (z ^ (z >>> 27)) * 0x94D049BB133111EBL;
        z ^= z >>> 31;
        return ((z >>> 11) * 0x1p-53 - 0.5) * Math.sqrt(12);
    }
}
