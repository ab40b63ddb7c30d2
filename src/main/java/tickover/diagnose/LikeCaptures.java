package tickover.diagnose;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import tickover.drive.Condition;
import tickover.drive.PartWords;

/**
 * Which captures of two visits may be held against each other: those that agree in point, axis,
 * mount, regime, condition and speed. The others are named with what sets them apart, never mixed.
 */
final class LikeCaptures {
    /** Levels grow with speed; held and idle speeds further apart than this are not alike. */
    private static final double LIKE_SPEED_RATIO = 0.08;

    /** Run-ups begin and end more loosely. */
    private static final double LIKE_SWEEP_RATIO = 0.2;

    /** What has to agree. */
    record Place(String point, String axis, Mount mount, Regime regime, Condition condition) {
        static Place of(CaptureLabel label) {
            return new Place(
                    label.point(), label.axis(), label.mount(), label.regime(), label.condition());
        }
    }

    private final Map<String, Place> before = new HashMap<>();
    private final Map<String, Place> after = new HashMap<>();
    private final List<String> unlike = new ArrayList<>();

    private LikeCaptures(VisitResult old, VisitResult now) {
        pair(old.captures(), now.captures(), before, "before", "after");
        pair(now.captures(), old.captures(), after, "after", "before");
    }

    static LikeCaptures of(VisitResult before, VisitResult after) {
        return new LikeCaptures(before, after);
    }

    /** Places of the earlier visit's captures that have a like one, by id. */
    Map<String, Place> before() {
        return before;
    }

    /** Places of the later visit's captures that have a like one, by id. */
    Map<String, Place> after() {
        return after;
    }

    /** One sentence per capture that has no like one. */
    List<String> unlike() {
        return List.copyOf(unlike);
    }

    private void pair(
            List<CaptureSummary> own,
            List<CaptureSummary> others,
            Map<String, Place> paired,
            String ownWord,
            String otherWord) {
        for (CaptureSummary c : own) {
            boolean like = others.stream().anyMatch(o -> apart(c, o).isEmpty());
            if (like) {
                paired.put(c.label().id(), Place.of(c.label()));
                continue;
            }
            Optional<List<String>> nearest =
                    others.stream()
                            .filter(o -> o.label().point().equals(c.label().point()))
                            .map(o -> apart(c, o))
                            .min((a, b) -> Integer.compare(a.size(), b.size()));
            unlike.add(
                    "Left out: capture "
                            + c.label().id()
                            + " "
                            + ownWord
                            + ", at "
                            + PartWords.the(c.label().point())
                            + (nearest.isPresent()
                                    ? "; the nearest "
                                            + otherWord
                                            + " differs in "
                                            + String.join(", ", nearest.get())
                                    : "; nothing was recorded there " + otherWord)
                            + ".");
        }
    }

    /** What sets two captures apart, in words; nothing if they are alike. */
    private static List<String> apart(CaptureSummary own, CaptureSummary other) {
        List<String> apart = new ArrayList<>();
        CaptureLabel a = own.label();
        CaptureLabel b = other.label();
        if (!a.point().equals(b.point())) {
            apart.add("point (" + PartWords.the(b.point()) + ")");
        }
        if (!a.axis().equals(b.axis())) {
            apart.add("axis (" + a.axis() + " here, " + b.axis() + " there)");
        }
        if (a.mount() != b.mount()) {
            apart.add("mount (" + a.mount().word() + " here, " + b.mount().word() + " there)");
        }
        if (a.regime() != b.regime()) {
            apart.add("regime (" + a.regime().word() + " here, " + b.regime().word() + " there)");
        }
        if (!a.condition().equals(b.condition())) {
            apart.add("condition (" + a.condition() + " here, " + b.condition() + " there)");
        }
        if (a.regime() == b.regime() && !isLikeSpeed(own, other)) {
            apart.add(
                    String.format(
                            Locale.ROOT,
                            "speed (%.0f rpm here, %.0f there)",
                            own.meanSpeedRpm(),
                            other.meanSpeedRpm()));
        }
        return apart;
    }

    private static boolean isLikeSpeed(CaptureSummary a, CaptureSummary b) {
        return a.label().regime() == Regime.SWEEP
                ? within(a.minSpeedRpm(), b.minSpeedRpm(), LIKE_SWEEP_RATIO)
                        && within(a.maxSpeedRpm(), b.maxSpeedRpm(), LIKE_SWEEP_RATIO)
                : within(a.meanSpeedRpm(), b.meanSpeedRpm(), LIKE_SPEED_RATIO);
    }

    private static boolean within(double a, double b, double ratio) {
        return Math.abs(a - b) <= ratio * Math.max(a, b);
    }
}
