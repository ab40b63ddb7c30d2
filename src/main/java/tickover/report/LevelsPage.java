package tickover.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import tickover.diagnose.CaptureSummary;
import tickover.diagnose.PartLevel;
import tickover.diagnose.VisitResult;

/** What the report's template says of captures and levels. */
final class LevelsPage {
    /** Speeds that differ by less are one speed to a reader. */
    private static final double ONE_SPEED_RPM = 1;

    private LevelsPage() {}

    static Map<String, Object> values(VisitResult result) {
        Set<String> parts = new LinkedHashSet<>();
        Map<String, Map<String, PartLevel>> rows = new LinkedHashMap<>();
        for (PartLevel level : result.levels()) {
            parts.add(level.part());
            rows.computeIfAbsent(level.capture(), c -> new LinkedHashMap<>())
                    .put(level.part(), level);
        }
        List<Map<String, Object>> table = new ArrayList<>();
        rows.forEach(
                (capture, levels) ->
                        table.add(
                                Map.of(
                                        "capture",
                                        capture,
                                        "cells",
                                        parts.stream().map(p -> cell(levels.get(p))).toList())));
        return Map.of(
                "parts",
                List.copyOf(parts),
                "levelRows",
                table,
                "captures",
                result.captures().stream().map(LevelsPage::capture).toList());
    }

    private static String cell(PartLevel level) {
        return level == null
                ? "–"
                : String.format(
                        Locale.ROOT,
                        "%.4f ± %.4f",
                        level.levelRmsMps2(),
                        level.standardErrorMps2());
    }

    private static Map<String, Object> capture(CaptureSummary c) {
        String speed =
                c.maxSpeedRpm() - c.minSpeedRpm() < ONE_SPEED_RPM
                        ? String.format(Locale.ROOT, "%.0f", c.meanSpeedRpm())
                        : String.format(
                                Locale.ROOT, "%.0f to %.0f", c.minSpeedRpm(), c.maxSpeedRpm());
        return Map.of(
                "id",
                c.label().id(),
                "point",
                c.label().point(),
                "axis",
                c.label().axis(),
                "mount",
                c.label().mount().word(),
                "regime",
                c.label().regime().word(),
                "condition",
                c.label().condition().toString(),
                "source",
                c.speedSource(),
                "length",
                String.format(Locale.ROOT, "%.1f", c.durationS()),
                "speed",
                speed,
                "rms",
                String.format(Locale.ROOT, "%.3f", c.overallRmsMps2()));
    }
}
