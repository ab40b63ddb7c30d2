package tickover.sim;

import java.util.Objects;
import java.util.stream.DoubleStream;

/**
 * One axis and the passages of a mark, rendered once and played round and round. Begins when it is
 * first looked at; looking is done by any thread.
 */
final class LoopedSound implements LineScene {
    private final double[] accelMps2;
    private final double sampleRateHz;
    private final double[] passagesS;
    private final double lengthS;
    private double beganS = Double.NaN;

    /**
     * Takes what was rendered; nobody may write to it afterwards.
     *
     * @param accelMps2 m/s²
     * @param sampleRateHz Hz
     * @param passagesS when the mark passes, s, rising; perhaps none
     */
    LoopedSound(double[] accelMps2, double sampleRateHz, double[] passagesS) {
        this.accelMps2 = Objects.requireNonNull(accelMps2, "accelMps2");
        this.sampleRateHz = sampleRateHz;
        this.passagesS = Objects.requireNonNull(passagesS, "passagesS");
        this.lengthS = accelMps2.length / sampleRateHz;
    }

    private synchronized double own(double timeS) {
        if (Double.isNaN(beganS)) {
            beganS = timeS;
        }
        return timeS - beganS;
    }

    @Override
    public int axes() {
        return 1;
    }

    @Override
    public void accelMps2(double fromS, double stepS, int count, double[] out) {
        for (int i = 0; i < count; i++) {
            long at = (long) Math.rint(own(fromS + i * stepS) * sampleRateHz);
            out[i] = accelMps2[(int) Math.floorMod(at, (long) accelMps2.length)];
        }
    }

    @Override
    public double[] passagesS(double fromS, double toS) {
        double ownFrom = own(fromS);
        double shift = fromS - ownFrom;
        DoubleStream.Builder times = DoubleStream.builder();
        for (double round = Math.floor(ownFrom / lengthS) * lengthS;
                round < toS - shift;
                round += lengthS) {
            for (double t : passagesS) {
                double at = round + t + shift;
                if (at >= fromS && at < toS) {
                    times.add(at);
                }
            }
        }
        return times.build().toArray();
    }

    @Override
    public double speedRpm(double timeS) {
        int n = passagesS.length;
        return n < 2 ? 0 : 60 * (n - 1) / (passagesS[n - 1] - passagesS[0]);
    }
}
