package tickover.console.model;

import java.util.List;
import java.util.Objects;

/**
 * What is told live in words and bars, some times a second.
 *
 * @param running whether a probe is listened to
 * @param speed engine speed in words
 * @param speedNote how well it is known, or why there is none; may be empty
 * @param level how loud it is, in words
 * @param quality what is wrong with the signal, one sentence each; one that says so if nothing is
 * @param sound whether nothing is wrong with it
 * @param forming how far the levels have come, in words
 * @param bars one for each part, the drive's order
 * @param chosen the part whose lines are laid over the waterfall; empty if none is
 * @param marks the lines that are laid over it
 * @param limitOrders order above which the mount does not carry, 0 if it is not known
 * @param pointedOrders where is pointed at, per crank turn; 0 if nowhere
 * @param pointed whose line is pointed at and who shares it, one sentence each
 */
public record LiveState(
        boolean running,
        String speed,
        String speedNote,
        String level,
        List<String> quality,
        boolean sound,
        String forming,
        List<Bar> bars,
        String chosen,
        List<Mark> marks,
        double limitOrders,
        double pointedOrders,
        List<String> pointed) {
    static final LiveState IDLE =
            new LiveState(
                    false, "", "", "", List.of(), true, "", List.of(), "", List.of(), 0, 0,
                    List.of());

    /**
     * The level of a part.
     *
     * @param part its name
     * @param lengthRatio its level over that of the loudest part, 0 to 1
     * @param errorRatio its standard error on the same scale
     * @param words level and error, m/s² rms
     * @param aimed whether the probe is on it
     */
    public record Bar(
            String part, double lengthRatio, double errorRatio, String words, boolean aimed) {
        public Bar {
            Objects.requireNonNull(part, "part");
            Objects.requireNonNull(words, "words");
        }
    }

    /**
     * A line that is expected.
     *
     * @param orders where it is, or is expected, per crank turn
     * @param fromOrders where it may stand at the lowest
     * @param toOrders where it may stand at the highest
     * @param words what makes it, short
     * @param shared whether another part has a line there
     * @param here whether it shows in this waterfall: bearings knock, the rest moves
     */
    public record Mark(
            double orders,
            double fromOrders,
            double toOrders,
            String words,
            boolean shared,
            boolean here) {
        public Mark {
            Objects.requireNonNull(words, "words");
        }
    }

    public LiveState {
        Objects.requireNonNull(speed, "speed");
        Objects.requireNonNull(speedNote, "speedNote");
        Objects.requireNonNull(level, "level");
        Objects.requireNonNull(forming, "forming");
        Objects.requireNonNull(chosen, "chosen");
        quality = List.copyOf(quality);
        bars = List.copyOf(bars);
        marks = List.copyOf(marks);
        pointed = List.copyOf(pointed);
    }
}
