package tickover.session;

import java.util.Arrays;
import java.util.Objects;
import tickover.diagnose.LivePartSound;

/**
 * Reads a {@link LiveSound} for a loudspeaker, close behind the one who writes it.
 *
 * <p>The probe's clock and the loudspeaker's differ, and values come in bursts: so many wait that
 * none is missing, {@value #WAITING_S} s of them; where more than {@value #MOST_S} s wait the
 * oldest are left out, and where there are none it is silent until enough wait again. <br>
 * Loud and quiet parts are brought to one loudness within 30 dB: down at once, so that nothing is
 * ever clipped, up by 3 dB a second. <br>
 * Allocates nothing after construction. Thread: one.
 */
public final class SoundFollower {
    /** How much waits in the mean, s: two reports of a tach. */
    public static final double WAITING_S = 0.2;

    /** More than so much waiting is a loudspeaker that was held up, s. */
    static final double MOST_S = 0.5;

    /** Rms that is aimed at, relative to full scale: -20 dB. */
    private static final double TARGET_RATIO = 0.1;

    /** No peak goes above this, relative to full scale: -1 dB. */
    private static final double HIGHEST_RATIO = 0.89;

    /** What is quieter than this stays quieter, m/s² rms: nobody wants to hear the sensor. */
    private static final double QUIETEST_MPS2 = 0.003;

    private static final double RISE_DB_PER_S = 3;

    /** Loudness is a running mean over about this time, s. */
    private static final double LOUDNESS_S = 1;

    private final LiveSound sound;
    private long at;
    private boolean flowing;
    private double meanSquare;
    private double gain;

    /**
     * Begins with what comes from now on.
     *
     * @param sound what to read
     */
    public SoundFollower(LiveSound sound) {
        this.sound = Objects.requireNonNull(sound, "sound");
        this.at = sound.written();
    }

    /**
     * Gives what is to be played next.
     *
     * @param out filled, 1 at full scale
     */
    public void next(double[] out) {
        long end = sound.written();
        int waiting = (int) (WAITING_S * LivePartSound.RATE_HZ);
        if (end - at > MOST_S * LivePartSound.RATE_HZ) {
            at = end - waiting;
        }
        flowing = flowing || end - at >= waiting;
        int count = flowing ? (int) Math.min(out.length, end - at) : 0;
        double peak = 0;
        double squares = 0;
        for (int i = 0; i < count; i++) {
            double x = sound.at(at + i);
            out[i] = x;
            peak = Math.max(peak, Math.abs(x));
            squares += x * x;
        }
        Arrays.fill(out, count, out.length, 0);
        at += count;
        flowing = count == out.length;
        if (count > 0) {
            level(out, count, peak, squares / count);
        }
    }

    private void level(double[] out, int count, double peak, double latestSquare) {
        double blockS = (double) count / LivePartSound.RATE_HZ;
        double newest = gain == 0 ? 1 : Math.min(1, blockS / LOUDNESS_S);
        meanSquare += newest * (latestSquare - meanSquare);
        double wanted = TARGET_RATIO / Math.max(QUIETEST_MPS2, Math.sqrt(meanSquare));
        double before = gain == 0 ? wanted : gain;
        double rise = before * Math.pow(10, RISE_DB_PER_S * blockS / 20);
        gain = Math.min(Math.min(wanted, rise), HIGHEST_RATIO / Math.max(peak, 1e-12));
        // Where it falls, it has fallen from the first value on: the peak may be anywhere.
        double from = Math.min(before, HIGHEST_RATIO / Math.max(peak, 1e-12));
        for (int i = 0; i < count; i++) {
            out[i] *= from + (gain - from) * (i + 1) / count;
        }
    }
}
