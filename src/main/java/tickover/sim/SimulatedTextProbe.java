package tickover.sim;

import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Objects;

/**
 * A hobby board: a header, then a line of numbers for each sample, in g, with a loop that is not
 * quite even and a microsecond counter of 32 bits. One thread.
 */
public final class SimulatedTextProbe implements SimulatedDevice {
    private static final double STANDARD_GRAVITY_MPS2 = 9.80665;
    private static final double BOOT_S = 0.1;
    private static final int HEADER_EVERY_LINES = 4096;

    /** Every third line is so late, as of a loop that does something else meanwhile, s. */
    private static final double LATE_S = 30e-6;

    private static final String[] COLUMNS = {"ax", "ay", "az"};

    private final LineScene scene;
    private final double rateHz;
    private final String unit;
    private final double[] accel;
    private double bootS;
    private long line;

    /**
     * Powers it up at time 0.
     *
     * @param scene what it feels
     * @param rateHz lines a second, &gt; 0
     * @param saysUnit whether the header says that the numbers are g
     */
    public SimulatedTextProbe(LineScene scene, double rateHz, boolean saysUnit) {
        this.scene = Objects.requireNonNull(scene, "scene");
        if (!(rateHz > 0)) {
            throw new IllegalArgumentException("rateHz=" + rateHz + ", need > 0 Hz");
        }
        this.rateHz = rateHz;
        this.unit = saysUnit ? "_g" : "";
        this.accel = new double[scene.axes()];
    }

    private double timeS() {
        return bootS + BOOT_S + line / rateHz + (line % 3 == 0 ? LATE_S : 0);
    }

    @Override
    public void hear(byte[] bytes, double atS) {}

    @Override
    public byte[] sentBy(double nowS) {
        StringBuilder text = new StringBuilder();
        while (timeS() <= nowS) {
            if (line % HEADER_EVERY_LINES == 0) {
                text.append("t_us");
                for (int a = 0; a < accel.length; a++) {
                    text.append(',').append(COLUMNS[a]).append(unit);
                }
                text.append("\r\n");
            }
            scene.accelMps2(timeS(), 0, 1, accel);
            text.append(Math.round((timeS() - bootS) * 1e6) & 0xFFFFFFFFL);
            for (double a : accel) {
                text.append(String.format(Locale.ROOT, ",%.4f", a / STANDARD_GRAVITY_MPS2));
            }
            text.append("\r\n");
            line++;
        }
        return text.toString().getBytes(StandardCharsets.US_ASCII);
    }

    @Override
    public void powerCycle(double atS) {
        bootS = atS;
        line = 0;
    }
}
