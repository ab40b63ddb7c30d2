package tickover.console.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import tickover.diagnose.BenchDifference;
import tickover.diagnose.BenchFinding;
import tickover.diagnose.BenchLevel;
import tickover.diagnose.BenchOdds;
import tickover.diagnose.BenchResult;
import tickover.diagnose.BenchSpectrum;
import tickover.diagnose.BenchVerdict;
import tickover.report.BenchWords;
import tickover.report.Wording;

/**
 * What a bench says, in words and numbers.
 *
 * @param headline the verdict, one sentence; empty before there is one
 * @param howSure how sure that is, one sentence
 * @param answers whether it runs true, has play, is rough
 * @param odds how likely each verdict is; empty where the internals are not known
 * @param evidence why, one sentence for each rhythm
 * @param levels levels of the record, in the bands of ISO 15242-2 among others
 * @param differences levels against the known-good part
 * @param notes what limits all this, one sentence each
 * @param spectra the envelope order spectrum; one or none
 * @param lines the bearing's own lines in it
 */
public record BenchVerdictWords(
        String headline,
        String howSure,
        List<Answer> answers,
        List<Odds> odds,
        List<String> evidence,
        List<Row> levels,
        List<Row> differences,
        List<String> notes,
        List<BenchSpectrum> spectra,
        List<Line> lines) {
    static final BenchVerdictWords NOTHING =
            new BenchVerdictWords(
                    "", "", List.of(), List.of(), List.of(), List.of(), List.of(), List.of(),
                    List.of(), List.of());

    private static final double FEWEST_SHOWN = 0.01;

    /**
     * An answer beside the verdict.
     *
     * @param sign how it is marked: a cross, a question mark, a hook
     * @param words what was asked and how it stands
     * @param text what was seen and what to do
     */
    public record Answer(String sign, String words, String text) {
        public Answer {
            Objects.requireNonNull(sign, "sign");
            Objects.requireNonNull(words, "words");
            Objects.requireNonNull(text, "text");
        }
    }

    /**
     * How likely a verdict is.
     *
     * @param words the verdict
     * @param probability 0 to 1
     * @param percent the same in words
     */
    public record Odds(String words, double probability, String percent) {
        public Odds {
            Objects.requireNonNull(words, "words");
            Objects.requireNonNull(percent, "percent");
        }
    }

    /**
     * A row of a table.
     *
     * @param name what it is
     * @param value number and unit
     * @param text what it is worth
     */
    public record Row(String name, String value, String text) {
        public Row {
            Objects.requireNonNull(name, "name");
            Objects.requireNonNull(value, "value");
            Objects.requireNonNull(text, "text");
        }
    }

    /**
     * A line of the bearing.
     *
     * @param orders per turn of the ring that turns
     * @param words whose it is, short
     */
    public record Line(double orders, String words) {
        public Line {
            Objects.requireNonNull(words, "words");
        }
    }

    public BenchVerdictWords {
        Objects.requireNonNull(headline, "headline");
        Objects.requireNonNull(howSure, "howSure");
        answers = List.copyOf(answers);
        odds = List.copyOf(odds);
        evidence = List.copyOf(evidence);
        levels = List.copyOf(levels);
        differences = List.copyOf(differences);
        notes = List.copyOf(notes);
        spectra = List.copyOf(spectra);
        lines = List.copyOf(lines);
    }

    /** Why there is none. */
    static BenchVerdictWords none(String why) {
        return new BenchVerdictWords(
                "No verdict yet.",
                why,
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of());
    }

    /**
     * Puts a result into words.
     *
     * @param internalsKnown whether the bearing's internals are; if not, nothing is said of its
     *     single rings, balls and cage
     */
    static BenchVerdictWords of(BenchResult result, boolean internalsKnown) {
        List<String> notes = new ArrayList<>(result.notes());
        if (!internalsKnown) {
            notes.add(
                    0,
                    "Without the bearing's internals no spot on a ring, a ball or the cage can be"
                            + " looked for. Read the number on its shield, or count and measure its"
                            + " balls, type that above, and the captures are judged anew.");
        }
        return new BenchVerdictWords(
                internalsKnown ? BenchWords.headline(result) : unknown(result),
                sure(result, internalsKnown),
                result.findings().stream().map(BenchVerdictWords::answer).toList(),
                internalsKnown
                        ? result.odds().stream()
                                .filter(o -> o.probability() >= FEWEST_SHOWN)
                                .map(BenchVerdictWords::odds)
                                .toList()
                        : List.of(),
                internalsKnown
                        ? result.patterns().stream().map(BenchWords::of).toList()
                        : List.of(),
                result.levels().stream().map(BenchVerdictWords::row).toList(),
                result.differences().stream().map(BenchVerdictWords::row).toList(),
                notes,
                internalsKnown ? List.of(result.spectrum()) : List.of(),
                internalsKnown ? lines(result) : List.of());
    }

    /** As it is kept with the vehicle. */
    String asNote(String part) {
        return "Bench, " + part + ": " + headline + (howSure.isEmpty() ? "" : " " + howSure);
    }

    /** The same with more to know. */
    BenchVerdictWords withNotes(List<String> first, List<String> more) {
        List<String> all = new ArrayList<>(first);
        all.addAll(more);
        all.addAll(notes);
        return new BenchVerdictWords(
                headline,
                howSure,
                answers,
                odds,
                evidence,
                levels,
                differences,
                all,
                spectra,
                lines);
    }

    private static String unknown(BenchResult result) {
        Optional<BenchFinding> worst =
                result.findings().stream()
                        .filter(f -> f.state() != BenchFinding.State.NOT_SEEN)
                        .findFirst();
        return worst.map(f -> BenchWords.answer(f) + ".")
                .orElse("Runs true, no play, not rough; its bearing is not known.");
    }

    private static String sure(BenchResult result, boolean internalsKnown) {
        String speed = String.format(Locale.ROOT, "%.0f rpm", result.speedRpm());
        String trust =
                result.speedConfirmed() ? "" : ", taken on trust: the record does not show it";
        return internalsKnown
                ? "How sure: "
                        + Wording.percent(result.probability())
                        + ", at "
                        + speed
                        + trust
                        + "."
                : "At " + speed + trust + ".";
    }

    private static Answer answer(BenchFinding f) {
        String sign =
                switch (f.state()) {
                    case SEEN -> "✗";
                    case POSSIBLE -> "?";
                    case NOT_SEEN -> "✓";
                };
        return new Answer(sign, BenchWords.answer(f), f.text());
    }

    private static Odds odds(BenchOdds o) {
        String words =
                switch (o.verdict()) {
                    case HEALTHY -> "sound";
                    case OUTER_RING -> "outer ring";
                    case INNER_RING -> "inner ring";
                    case ROLLING_ELEMENT -> "ball or roller";
                    case CAGE -> "cage";
                    case UNCLEAR -> "cannot be told";
                };
        return new Odds(words, o.probability(), Wording.percent(o.probability()));
    }

    private static Row row(BenchLevel level) {
        return new Row(
                name(level.name()),
                (Numbers.three(level.value()) + " " + level.unit()).strip(),
                level.text());
    }

    private static Row row(BenchDifference d) {
        return new Row(
                name(d.name()),
                String.format(Locale.ROOT, "%+.1f dB", d.change().changeDb()),
                String.format(
                        Locale.ROOT,
                        "%s here, %s known-good %s; between %+.1f and %+.1f dB",
                        Numbers.three(d.value()),
                        Numbers.three(d.goodValue()),
                        d.unit(),
                        d.change().lowDb(),
                        d.change().highDb()));
    }

    /** A level's name as one would say it. */
    static String name(String level) {
        return level.replaceFirst("^(velocity|acceleration)-(\\d+)-(\\d+)", "$1 $2–$3 Hz")
                .replaceFirst("^turn-1", "once per turn")
                .replaceFirst("^turn-(\\d)", "$1 times per turn")
                .replaceFirst("^swing-", "ringing swings with ")
                .replace("rolling-element", "ball")
                .replace("acceleration-rms", "whole record, rms")
                .replace('-', ' ');
    }

    private static List<Line> lines(BenchResult result) {
        List<Line> lines = new ArrayList<>();
        result.patterns().forEach(p -> lines.add(new Line(p.orderFound(), shortName(p.fault()))));
        return lines;
    }

    private static String shortName(String fault) {
        return fault.equals(BenchVerdict.ROLLING_ELEMENT.word())
                ? "ball"
                : fault.replace("-ring", "");
    }
}
