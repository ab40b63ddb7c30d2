package tickover.cli;

import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Predicate;
import tickover.diagnose.Fault;
import tickover.session.BenchStudy.Answer;
import tickover.session.BenchStudy.Outcome;

/** Writes what a study of benches found as Markdown. */
final class BenchStudyTables {
    private static final List<Fault> ROWS =
            List.of(
                    Fault.BEARING_OUTER_RING,
                    Fault.BEARING_INNER_RING,
                    Fault.ROLLING_ELEMENT,
                    Fault.CAGE,
                    Fault.BEARING_ROUGH,
                    Fault.ECCENTRIC,
                    Fault.LOOSE);

    /** A found speed within this share is the true one. */
    private static final double RIGHT_SPEED_RATIO = 0.005;

    private BenchStudyTables() {}

    static List<String> lines(List<Outcome> outcomes) {
        List<String> out = new ArrayList<>();
        out.add(
                "| truth | records | named right | possible | named something else |"
                        + " named right, with --good | possible | named something else |");
        out.add("|---|---|---|---|---|---|---|---|");
        for (Fault fault : ROWS) {
            List<Outcome> rows = outcomes.stream().filter(o -> o.truth() == fault).toList();
            out.add(
                    String.format(
                            Locale.ROOT,
                            "| %s | %d | %s | %s |",
                            fault.word(),
                            rows.size(),
                            cells(rows, fault, Outcome::alone),
                            cells(rows, fault, Outcome::withGood)));
        }
        for (boolean neighbour : new boolean[] {false, true}) {
            List<Outcome> sound =
                    outcomes.stream()
                            .filter(
                                    o ->
                                            o.truth() == Fault.NONE
                                                    && o.neighbourDamaged() == neighbour)
                            .toList();
            out.add(
                    String.format(
                            Locale.ROOT,
                            "| sound%s | %d | | %s | %s | | %s | %s |",
                            neighbour ? ", damaged neighbour" : "",
                            sound.size(),
                            possible(sound, Outcome::alone),
                            accused(sound, Outcome::alone),
                            possible(sound, Outcome::withGood),
                            accused(sound, Outcome::withGood)));
        }
        long found = outcomes.stream().filter(Outcome::speedFound).count();
        long right =
                outcomes.stream()
                        .filter(
                                o ->
                                        o.speedFound()
                                                && Math.abs(o.foundRatio() - 1) < RIGHT_SPEED_RATIO)
                        .count();
        out.add("");
        out.add(
                "Speed found in the record alone: "
                        + found
                        + " of "
                        + outcomes.size()
                        + ", of which "
                        + right
                        + " right within 0.5 %.");
        return out;
    }

    private static String cells(List<Outcome> rows, Fault fault, Function<Outcome, Answer> answer) {
        return count(rows, answer, a -> a.named().contains(fault))
                + " | "
                + count(
                        rows,
                        answer,
                        a -> !a.named().contains(fault) && a.possible().contains(fault))
                + " | "
                + count(rows, answer, a -> !a.named().isEmpty() && !a.named().contains(fault));
    }

    private static long possible(List<Outcome> rows, Function<Outcome, Answer> answer) {
        return count(rows, answer, a -> a.named().isEmpty() && !a.possible().isEmpty());
    }

    private static long accused(List<Outcome> rows, Function<Outcome, Answer> answer) {
        return count(rows, answer, a -> !a.named().isEmpty());
    }

    private static long count(
            List<Outcome> rows, Function<Outcome, Answer> answer, Predicate<Answer> which) {
        return rows.stream().map(answer).filter(which).count();
    }

    static JsonObject json(Outcome o) {
        JsonObject object = new JsonObject();
        object.addProperty("seed", o.seed());
        object.addProperty("truth", o.truth().word());
        object.addProperty("neighbourDamaged", o.neighbourDamaged());
        object.add("named", words(o.alone().named()));
        object.add("possible", words(o.alone().possible()));
        object.add("namedWithGood", words(o.withGood().named()));
        object.add("possibleWithGood", words(o.withGood().possible()));
        object.addProperty("speedFound", o.speedFound());
        Json.put(object, "foundRatio", o.foundRatio());
        return object;
    }

    private static JsonElement words(Set<Fault> faults) {
        return Json.words(faults.stream().map(Fault::word).sorted().toList());
    }
}
