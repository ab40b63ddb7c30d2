package tickover.session;

import java.util.ArrayList;
import java.util.List;

/**
 * Brings sounds to one loudness, as the ear weighs it, without ever clipping: if the peak of one
 * leaves no room, all are turned down alike.
 */
public final class Loudness {
    /** Weighted rms that is aimed at, relative to full scale: a comfortable -23 dB. */
    private static final double TARGET_RATIO = Math.pow(10, -23 / 20.0);

    /** No peak goes above this, relative to full scale: -1 dB. */
    private static final double HIGHEST_PEAK_RATIO = Math.pow(10, -1 / 20.0);

    /** What to keep equal between sounds. */
    public enum Keep {
        /** The loudness: each sound has a gain of its own, so that their character compares. */
        LOUDNESS,
        /** The gain: what is quieter stays quieter. */
        GAIN
    }

    private Loudness() {}

    /**
     * Chooses gains.
     *
     * @param sounds at least one, none of them silent
     * @param keep what to keep equal
     * @return one gain per sound: full scale per m/s²
     * @throws IllegalArgumentException if one is silent
     */
    public static List<Double> gains(List<PartAudio> sounds, Keep keep) {
        List<Double> gains = new ArrayList<>();
        double room = 1;
        for (PartAudio sound : sounds) {
            double level = sound.weightedMps2();
            if (!(level > 0)) {
                throw new IllegalArgumentException(
                        sound.part() + " makes no sound that could be brought to a loudness");
            }
            gains.add(TARGET_RATIO / level);
        }
        if (keep == Keep.GAIN) {
            double least = gains.stream().mapToDouble(g -> g).min().orElseThrow();
            gains.replaceAll(g -> least);
        }
        for (int i = 0; i < sounds.size(); i++) {
            double peak = gains.get(i) * sounds.get(i).peakMps2();
            room = Math.min(room, HIGHEST_PEAK_RATIO / Math.max(peak, Double.MIN_NORMAL));
        }
        double turnedDown = room;
        gains.replaceAll(g -> g * turnedDown);
        return List.copyOf(gains);
    }

    /**
     * Expresses a gain.
     *
     * @param gain full scale per m/s²
     * @return dB; 0 puts 1 m/s² at full scale
     */
    public static double gainDb(double gain) {
        return 20 * Math.log10(gain);
    }
}
