package tickover.diagnose;

import java.nio.charset.StandardCharsets;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.UUID;
import tickover.drive.Condition;

/** Levels over visits, written down by hand. */
final class Histories {
    static final LocalDateTime FIRST = LocalDateTime.parse("2024-01-10T09:00:00");
    static final int DAYS_BETWEEN = 90;

    private final List<MeasuredLevel> levels = new ArrayList<>();

    private static CaptureLabel label(String point) {
        return new CaptureLabel(
                "c-" + point, point, "radial", Mount.HAND, Regime.IDLE, Condition.UNLOADED);
    }

    static VisitMoment visit(int number) {
        return VisitMoment.of(
                UUID.nameUUIDFromBytes(("visit " + number).getBytes(StandardCharsets.UTF_8)),
                FIRST.plusDays((long) DAYS_BETWEEN * number));
    }

    static MeasuredLevel level(VisitMoment visit, String part, double db) {
        return level(visit, part, label(part), 780, db);
    }

    static MeasuredLevel level(
            VisitMoment visit, String part, CaptureLabel label, double speedRpm, double db) {
        double level = Math.pow(10, db / 20);
        return new MeasuredLevel(visit, part, label, speedRpm, level, 0.02 * level, "1");
    }

    /** Adds one part's levels, one per visit, probed at itself. */
    Histories part(String part, double... db) {
        for (int i = 0; i < db.length; i++) {
            levels.add(level(visit(i), part, db[i]));
        }
        return this;
    }

    Histories add(MeasuredLevel level) {
        levels.add(level);
        return this;
    }

    /** All levels, oldest visit first. */
    List<MeasuredLevel> levels() {
        levels.sort(Comparator.comparing((MeasuredLevel l) -> l.visit().date()));
        return List.copyOf(levels);
    }

    static RepairMark repair(int afterVisit, String part) {
        return new RepairMark(
                new UUID(1, afterVisit),
                "ML-07",
                visit(afterVisit).date().plusDays(1),
                part,
                "new " + part);
    }
}
