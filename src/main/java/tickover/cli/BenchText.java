package tickover.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import tickover.diagnose.BenchDifference;
import tickover.diagnose.BenchFinding;
import tickover.diagnose.BenchLevel;
import tickover.diagnose.BenchOdds;
import tickover.diagnose.BenchPattern;
import tickover.diagnose.BenchResult;
import tickover.drive.Ring;
import tickover.report.BenchWords;

/** What a bench record comes to, as text: verdict first, reasons after. */
final class BenchText {
    private BenchText() {}

    static List<String> lines(BenchResult result, BearingOption bearing) {
        List<String> lines = new ArrayList<>();
        lines.addAll(Prose.fold("", BenchWords.headline(result)));
        lines.add(
                "How sure: "
                        + Prose.percent(result.probability())
                        + ", at "
                        + Prose.fixed(result.speedRpm(), 1)
                        + " rpm"
                        + (result.speedConfirmed()
                                ? ""
                                : " (taken on trust: the record does not show it)"));
        for (BenchFinding f : result.findings()) {
            lines.addAll(Prose.fold("", BenchWords.answer(f) + ". " + f.text()));
        }
        lines.add("");
        TextTable odds = new TextTable("Verdict", "", ">Probability");
        for (BenchOdds o : result.odds()) {
            odds.row(
                    o.verdict().word(), Prose.bar(o.probability()), Prose.percent(o.probability()));
        }
        lines.addAll(odds.lines());
        lines.add("");
        lines.addAll(patterns(result).lines());
        lines.add("");
        result.patterns().forEach(p -> lines.addAll(Prose.fold("", BenchWords.of(p))));
        lines.add("");
        if (!result.differences().isEmpty()) {
            lines.addAll(differences(result).lines());
            lines.add("");
        }
        TextTable levels = new TextTable("Level", ">Value", "Unit", "What it is");
        for (BenchLevel l : result.levels()) {
            levels.row(l.name(), Prose.three(l.value()), l.unit(), l.text());
        }
        lines.addAll(levels.lines());
        if (!bearing.turningSaid()) {
            lines.addAll(Prose.fold("Note: ", ringNote(bearing.turning())));
        }
        result.notes().forEach(n -> lines.addAll(Prose.fold("Note: ", n)));
        return lines;
    }

    static String ringNote(Ring turning) {
        return "Taken for granted that the "
                + turning.word()
                + " ring turns. A pulley on its bolt turns its outer ring: say rotating=outer in"
                + " --bearing then, for the lines beside the knocks and the cage differ.";
    }

    private static TextTable patterns(BenchResult result) {
        boolean several =
                result.levels().stream().anyMatch(l -> l.name().equals("acceleration-rms-y"));
        TextTable patterns =
                new TextTable(
                        "Pattern",
                        ">Order per turn",
                        ">Off, %",
                        ">Strength, dB",
                        ">By chance",
                        ">Level, m/s²",
                        "Best heard");
        for (BenchPattern p : result.patterns()) {
            patterns.row(
                    p.fault(),
                    Prose.fixed(p.orderFound(), 4),
                    Prose.signed(100 * p.deviationRatio(), 2),
                    Prose.fixed(p.strengthDb(), 1),
                    Prose.three(p.falseAlarmProbability()),
                    Prose.three(p.levelRmsMps2()),
                    String.format(
                                    Locale.ROOT,
                                    "%.1f to %.1f kHz",
                                    p.band().loHz() / 1000,
                                    p.band().hiHz() / 1000)
                            + (several ? ", channel " + channel(p.band().channel()) : ""));
        }
        return patterns;
    }

    static String channel(int channel) {
        return String.valueOf((char) ('x' + channel));
    }

    private static TextTable differences(BenchResult result) {
        TextTable table =
                new TextTable(
                        "Against known-good",
                        ">Here",
                        ">Good",
                        "Unit",
                        ">Change, dB",
                        ">95 % interval, dB");
        for (BenchDifference d : result.differences()) {
            table.row(
                    d.name(),
                    Prose.three(d.value()),
                    Prose.three(d.goodValue()),
                    d.unit(),
                    Prose.signed(d.change().changeDb(), 1),
                    Prose.signed(d.change().lowDb(), 1)
                            + " to "
                            + Prose.signed(d.change().highDb(), 1));
        }
        return table;
    }
}
