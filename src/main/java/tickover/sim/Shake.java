package tickover.sim;

/** Excitation of one place during one run; shakers add to both arrays. */
final class Shake {
    /** Acceleration of the place itself, m/s². */
    final double[] directMps2;

    /** Impacts and noise that go through the place's own resonances; ring amplitude in m/s². */
    final double[] impactsMps2;

    Shake(int count) {
        directMps2 = new double[count];
        impactsMps2 = new double[count];
    }
}
