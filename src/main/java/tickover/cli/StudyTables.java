package tickover.cli;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import tickover.session.RankingStudy.Outcome;

/** Writes what a study found as Markdown. */
final class StudyTables {
    private final List<Outcome> outcomes;
    private final List<Outcome> faulty;

    StudyTables(List<Outcome> outcomes) {
        this.outcomes = outcomes;
        this.faulty = outcomes.stream().filter(o -> !o.healthy()).toList();
    }

    List<String> lines() {
        Reliability reliability = Reliability.of(outcomes);
        List<String> out = new ArrayList<>();
        int healthy = outcomes.size() - faulty.size();
        out.add(
                String.format(
                        Locale.ROOT,
                        "Right part first among the parts: %d of %d; by the recordings alone, the"
                                + " complaint unread: %d. Healthy engines accused: %d of %d."
                                + " Expected calibration error: %.3f. The loudest point is the"
                                + " right one: %d of %d.",
                        count(faulty, Outcome::rightPart),
                        faulty.size(),
                        count(faulty, Outcome::rightPartUntold),
                        count(outcomes, Outcome::falselyAccused),
                        healthy,
                        reliability.expectedError(),
                        count(faulty, Outcome::loudestRight),
                        faulty.size()));
        group(out, "fault", o -> o.fault().word());
        group(out, "speed source", Outcome::speed);
        group(out, "severity", o -> severity(o.severityRatio()));
        group(out, "the part's own point", o -> o.recordedAtPart() ? "recorded" : "not recorded");
        out.add("");
        out.add("| probability of the first | visits | mean probability | right |");
        out.add("|---|---|---|---|");
        for (Reliability.Bin b : reliability.bins()) {
            out.add(
                    String.format(
                            Locale.ROOT,
                            "| %.1f to %.1f | %d | %.2f | %.2f |",
                            b.fromProbability(),
                            b.toProbability(),
                            b.visits(),
                            b.meanProbability(),
                            b.rightRatio()));
        }
        return out;
    }

    private static String severity(double ratio) {
        return ratio < 1 / 3.0 ? "weak" : ratio < 2 / 3.0 ? "middling" : "strong";
    }

    private void group(List<String> out, String title, Function<Outcome, String> key) {
        Map<String, List<Outcome>> groups = new LinkedHashMap<>();
        faulty.forEach(o -> groups.computeIfAbsent(key.apply(o), k -> new ArrayList<>()).add(o));
        out.add("");
        out.add(
                "| "
                        + title
                        + " | visits | right part first | the same with `none` ranked too | named,"
                        + " and right | the loudest point |");
        out.add("|---|---|---|---|---|---|");
        groups.forEach(
                (name, list) -> {
                    List<Outcome> named = list.stream().filter(Outcome::named).toList();
                    out.add(
                            String.format(
                                    Locale.ROOT,
                                    "| %s | %d | %d | %d | %d of %d | %d |",
                                    name,
                                    list.size(),
                                    count(list, Outcome::rightPart),
                                    count(list, Outcome::right),
                                    count(named, Outcome::right),
                                    named.size(),
                                    count(list, Outcome::loudestRight)));
                });
    }

    private static long count(List<Outcome> list, Function<Outcome, Boolean> what) {
        return list.stream().filter(what::apply).count();
    }
}
