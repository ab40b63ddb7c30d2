package tickover.sim;

/**
 * Nothing but the sensor's own noise: a probe in the air, or on a part that stands.
 *
 * @param rmsMps2 level of the noise, rms, m/s²
 */
record StillScene(double rmsMps2) implements LineScene {
    @Override
    public int axes() {
        return 1;
    }

    @Override
    public void accelMps2(double fromS, double stepS, int count, double[] out) {
        for (int i = 0; i < count; i++) {
            out[i] = rmsMps2 * SceneNoise.at(fromS + i * stepS, 0);
        }
    }

    @Override
    public double[] passagesS(double fromS, double toS) {
        return new double[0];
    }

    @Override
    public double speedRpm(double timeS) {
        return 0;
    }
}
