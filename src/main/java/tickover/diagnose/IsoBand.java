package tickover.diagnose;

import java.util.ArrayList;
import java.util.List;
import tickover.dsp.RealFft;
import tickover.dsp.Statistics;
import tickover.dsp.Window;

/**
 * The three bands in which ISO 15242-2 measures ball bearings, as a secondary source gives them
 * (Materials 13(23) 5440, 2020): 50 to 300, 300 to 1800 and 1800 to 10,000 Hz at 1800 r/min.
 */
enum IsoBand {
    LOW(50, 300),
    MEDIUM(300, 1800),
    HIGH(1800, 10_000);

    /** Speed of the standard, r/min, and how far it may be off: +1 % and -2 % of it. */
    private static final double SPEED_RPM = 1800;

    private static final double SLOWEST_RATIO = 0.98;
    private static final double FASTEST_RATIO = 1.01;

    private final double loHz;
    private final double hiHz;

    IsoBand(double loHz, double hiHz) {
        this.loHz = loHz;
        this.hiHz = hiHz;
    }

    /**
     * Squares of one band's levels.
     *
     * @param band the band
     * @param accelSquare acceleration, (m/s²)²
     * @param velocitySquare velocity, (m/s)²
     */
    record Level(IsoBand band, double accelSquare, double velocitySquare) {}

    static boolean isItsSpeed(double rpm) {
        return rpm >= SLOWEST_RATIO * SPEED_RPM && rpm <= FASTEST_RATIO * SPEED_RPM;
    }

    private String range() {
        return Math.round(loHz) + "-" + Math.round(hiHz);
    }

    String accelerationName() {
        return "acceleration-" + range();
    }

    String velocityName() {
        return "velocity-" + range();
    }

    String words() {
        return Math.round(loHz) + " to " + Math.round(hiHz) + " Hz";
    }

    boolean fits(double sampleRateHz) {
        return hiHz <= sampleRateHz / 2;
    }

    /** Levels of a record in the bands that its rate reaches. */
    static List<Level> levels(double[] accelMps2, double sampleRateHz) {
        int n = EnvelopeOrders.smoothSizeAtMost(accelMps2.length);
        double mean = Statistics.mean(accelMps2);
        double[] weights = Window.HANN.periodic(n);
        double[] weighted = new double[n];
        double power = 0;
        for (int i = 0; i < n; i++) {
            weighted[i] = weights[i] * (accelMps2[i] - mean);
            power += weights[i] * weights[i];
        }
        RealFft fft = new RealFft(n);
        double[] re = new double[fft.bins()];
        double[] im = new double[fft.bins()];
        fft.forward(weighted, re, im);
        List<Level> levels = new ArrayList<>();
        for (IsoBand band : values()) {
            if (!band.fits(sampleRateHz)) {
                continue;
            }
            double accel = 0;
            double velocity = 0;
            for (int k = 1; k < re.length; k++) {
                double hz = k * sampleRateHz / n;
                if (hz >= band.loHz && hz < band.hiHz) {
                    // Parseval, both sides of the spectrum, over the energy of the window.
                    double square = 2 * (re[k] * re[k] + im[k] * im[k]) / (n * power);
                    accel += square;
                    velocity += square / Math.pow(2 * Math.PI * hz, 2);
                }
            }
            levels.add(new Level(band, accel, velocity));
        }
        return levels;
    }
}
