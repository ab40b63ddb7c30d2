package tickover.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import tickover.diagnose.CaptureSummary;
import tickover.diagnose.LineLevel;
import tickover.diagnose.PartLevel;
import tickover.diagnose.VisitResult;
import tickover.drive.PartWords;

/** What the report's template says of captures and levels. */
final class LevelsPage {
    /** Speeds that differ by less are one speed to a reader. */
    private static final double ONE_SPEED_RPM = 1;

    /** More parts than these make a table that no sheet of paper is wide enough for. */
    private static final int MOST_COLUMNS = 9;

    private LevelsPage() {}

    static Map<String, Object> values(VisitResult result) {
        Set<String> parts = new LinkedHashSet<>();
        Map<String, Map<String, PartLevel>> rows = new LinkedHashMap<>();
        for (PartLevel level : result.levels()) {
            parts.add(level.part());
            rows.computeIfAbsent(level.capture(), c -> new LinkedHashMap<>())
                    .put(level.part(), level);
        }
        List<String> all = List.copyOf(parts);
        List<Map<String, Object>> tables = new ArrayList<>();
        for (int i = 0; i < all.size(); i += MOST_COLUMNS) {
            tables.add(table(all.subList(i, Math.min(all.size(), i + MOST_COLUMNS)), rows));
        }
        Map<String, Object> v = new HashMap<>(lines(result));
        v.put("levelTables", tables);
        v.put("captures", result.captures().stream().map(LevelsPage::capture).toList());
        return v;
    }

    private static Map<String, Object> table(
            List<String> parts, Map<String, Map<String, PartLevel>> rows) {
        List<Map<String, Object>> table = new ArrayList<>();
        rows.forEach(
                (capture, levels) ->
                        table.add(
                                Map.of(
                                        "capture",
                                        capture,
                                        "cells",
                                        parts.stream().map(p -> cell(levels.get(p))).toList())));
        return Map.of("parts", parts.stream().map(LongWords::column).toList(), "rows", table);
    }

    private static Map<String, String> cell(PartLevel level) {
        return level == null
                ? Map.of("level", "–", "error", "")
                : Map.of(
                        "level",
                        fixed(level.levelRmsMps2()),
                        "error",
                        fixed(level.standardErrorMps2()));
    }

    private static String fixed(double rmsMps2) {
        return String.format(Locale.ROOT, "%.4f", rmsMps2);
    }

    /** Every line of the first suspect, where its level stands highest. */
    private static Map<String, Object> lines(VisitResult result) {
        String part = result.findings().firstPart().component();
        Optional<PartLevel> loudest =
                result.levels().stream()
                        .filter(l -> l.part().equals(part) && !l.lines().isEmpty())
                        .max(Comparator.comparingDouble(PartLevel::levelRmsMps2));
        return Map.of(
                "hasLines",
                loudest.isPresent(),
                "linesPart",
                Wording.component(part),
                "linesCapture",
                loudest.map(PartLevel::capture).orElse(""),
                "lines",
                loudest.map(PartLevel::lines).orElse(List.of()).stream()
                        .map(LevelsPage::line)
                        .toList());
    }

    private static Map<String, String> line(LineLevel line) {
        return Map.of(
                "kind",
                Wording.line(line.kind()),
                "order",
                String.format(Locale.ROOT, "%.3f", line.order()),
                "level",
                fixed(line.levelRmsMps2()),
                "error",
                fixed(line.standardErrorMps2()),
                "shared",
                line.sharedWith().isEmpty()
                        ? "no other part"
                        : PartWords.list(line.sharedWith(), "and") + " (not counted)");
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
                LongWords.column(c.label().point()),
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
