package tickover.diagnose;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import tickover.drive.PartWords;

/**
 * Whether a repair is proven: the repaired part's evidence gone, the other parts as they were, no
 * new fault.
 *
 * <p>The repaired part counts as quiet when its level is surely lower by {@value #GONE_DB} dB, and
 * its evidence as gone when the later visit does not suspect it either. How likely luck is, is told
 * beside it. With many parts held against each other some change clearly by chance alone; a part
 * counts as changed when its own chance times the number of parts is below 5 % (Bonferroni).
 */
public final class RepairProof {
    /** A drop that is surely at least this large is no touch and no warm-up: half the level. */
    static final double GONE_DB = 6;

    private static final double CLEAR = 0.05;

    /** A part that the earlier visit gave less than this, and the later names, is news. */
    private static final double SUSPECTED = 0.5;

    /** How the repaired part stands. */
    public enum State {
        /** Surely quieter by half and more, and not suspected any more. */
        GONE,
        /** Surely quieter, by less or still suspected. */
        QUIETER,
        /** No change that can be told from scatter. */
        UNPROVEN,
        /** Surely louder. */
        LOUDER,
        /** No like captures, or nothing of it on either side. */
        NOT_COMPARABLE;

        /**
         * Returns the word for it in answers.
         *
         * @return lower case with hyphens
         */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    /**
     * A part that was not repaired.
     *
     * @param change its change
     * @param changed whether it changed, counted against the number of parts
     * @param text in a mechanic's words, with what could have been seen
     */
    public record Other(PartChange change, boolean changed, String text) {
        public Other {
            Objects.requireNonNull(change, "change");
            Objects.requireNonNull(text, "text");
        }
    }

    /**
     * Something that is new since the repair.
     *
     * @param part which part, as {@link PartLevel#part}
     * @param text what is new, in a mechanic's words, without a full stop
     */
    public record NewFault(String part, String text) {
        public NewFault {
            Objects.requireNonNull(part, "part");
            Objects.requireNonNull(text, "text");
        }
    }

    private final String part;
    private final State state;
    private final String text;
    private final List<PartChange> changes;
    private final List<Other> others;
    private final List<NewFault> newFaults;
    private final List<String> unlike;

    private RepairProof(VisitResult before, VisitResult after, String part) {
        this.part = part;
        this.changes = BeforeAfter.visits(before, after);
        this.unlike = LikeCaptures.of(before, after).unlike();
        Optional<PartChange> own = changes.stream().filter(c -> c.part().equals(part)).findFirst();
        double was = probability(before, part);
        double is = probability(after, part);
        boolean suspected =
                after.findings().verdict() == Verdict.COMPONENT
                        ? after.findings().first().component().equals(part)
                        : is >= SUSPECTED;
        this.state = own.map(c -> state(c, suspected)).orElse(State.NOT_COMPARABLE);
        this.text = own.map(c -> sentence(c, was, is)).orElse(sentence(was, is));
        this.others = List.copyOf(judgeOthers());
        this.newFaults = List.copyOf(findNewFaults(before, after));
    }

    /**
     * Judges a repair.
     *
     * @param before the visit before it
     * @param after the visit after it
     * @param part the part that was repaired, as {@link PartLevel#part} names it
     * @return the proof, or what is missing for one
     */
    public static RepairProof of(VisitResult before, VisitResult after, String part) {
        Objects.requireNonNull(before, "before");
        Objects.requireNonNull(after, "after");
        return new RepairProof(before, after, Objects.requireNonNull(part, "part"));
    }

    /**
     * Names the captures of two visits that have no like one.
     *
     * @param before the earlier visit
     * @param after the later one
     * @return one sentence each
     */
    public static List<String> unlike(VisitResult before, VisitResult after) {
        return LikeCaptures.of(before, after).unlike();
    }

    private static double probability(VisitResult result, String part) {
        return result.findings().candidates().stream()
                .filter(c -> c.component().equals(part))
                .mapToDouble(Candidate::probability)
                .sum();
    }

    private static State state(PartChange own, boolean suspected) {
        if (own.lowDb() > 0) {
            return State.LOUDER;
        }
        if (!own.isClear()) {
            return State.UNPROVEN;
        }
        return own.highDb() <= -GONE_DB && !suspected ? State.GONE : State.QUIETER;
    }

    private String sentence(double was, double is) {
        return PartWords.start(part)
                + " cannot be compared: no two like captures hold a level of it above its error."
                + " Record the same points in the same conditions again."
                + suspicion(was, is);
    }

    private String sentence(PartChange c, double was, double is) {
        String size = String.format(Locale.ROOT, "%.1f dB", Math.abs(c.changeDb()));
        String interval =
                String.format(
                        Locale.ROOT, " (95 %% interval %+.1f to %+.1f dB)", c.lowDb(), c.highDb());
        String what =
                switch (state) {
                    case GONE ->
                            PartWords.start(part)
                                    + " is "
                                    + size
                                    + " quieter"
                                    + interval
                                    + (c.afterHeard()
                                            ? "."
                                            : " and no longer stands above the scatter.");
                    case QUIETER ->
                            PartWords.start(part) + " is " + size + " quieter" + interval + ".";
                    case UNPROVEN ->
                            "No change of "
                                    + PartWords.the(part)
                                    + " can be told from scatter"
                                    + interval
                                    + ": record more touches before you call it repaired.";
                    case LOUDER ->
                            PartWords.start(part)
                                    + " is "
                                    + size
                                    + " LOUDER"
                                    + interval
                                    + ": it is not repaired.";
                    case NOT_COMPARABLE -> "";
                };
        return what + luck(c) + suspicion(was, is);
    }

    private static String luck(PartChange c) {
        if (!c.coversTouches()) {
            return " What putting the probe down anew does is not in that: fewer than three pairs"
                    + " tell it, so how likely luck is cannot be said.";
        }
        double least = 1e-4;
        return " That an unchanged part shows as much by luck: "
                + (c.luckRatio() < least
                        ? "less than 1 in 10000."
                        : "1 in " + Math.max(1, Math.round(1 / c.luckRatio())) + ".");
    }

    private static String suspicion(double was, double is) {
        return String.format(
                Locale.ROOT,
                " Suspicion against it: %.0f %% before, %.0f %% after.",
                100 * was,
                100 * is);
    }

    private List<Other> judgeOthers() {
        List<PartChange> rest = changes.stream().filter(c -> !c.part().equals(part)).toList();
        List<Other> out = new ArrayList<>();
        for (PartChange c : rest) {
            boolean changed = c.isClear() && c.luckRatio() * rest.size() < CLEAR;
            double half = Math.max(c.highDb() - c.changeDb(), c.changeDb() - c.lowDb());
            out.add(
                    new Other(
                            c,
                            changed,
                            changed
                                    ? String.format(
                                            Locale.ROOT,
                                            "%s by %.1f dB%s",
                                            c.changeDb() < 0 ? "quieter" : "louder",
                                            Math.abs(c.changeDb()),
                                            c.coversTouches()
                                                    ? ""
                                                    : "; another touch of the probe may do that")
                                    : String.format(
                                            Locale.ROOT,
                                            "unchanged; more than %.1f dB would have shown",
                                            half)));
        }
        return out;
    }

    private List<NewFault> findNewFaults(VisitResult before, VisitResult after) {
        List<NewFault> news = new ArrayList<>();
        Candidate named = after.findings().first();
        if (after.findings().verdict() == Verdict.COMPONENT
                && !named.component().equals(part)
                && probability(before, named.component()) < SUSPECTED) {
            news.add(
                    new NewFault(
                            named.component(),
                            String.format(
                                    Locale.ROOT,
                                    "%s: %s, %.0f %% sure (%.0f %% before)",
                                    PartWords.the(named.component()),
                                    named.fault().words(),
                                    100 * named.probability(),
                                    100 * probability(before, named.component()))));
        }
        for (Other o : others) {
            boolean much = o.changed() && o.change().lowDb() >= GONE_DB;
            boolean said = news.stream().anyMatch(n -> n.part().equals(o.change().part()));
            if (much && !said) {
                news.add(
                        new NewFault(
                                o.change().part(),
                                String.format(
                                        Locale.ROOT,
                                        "%s: louder by %.1f dB (at least %.1f) since the repair;"
                                                + " look at it before the vehicle goes",
                                        PartWords.the(o.change().part()),
                                        o.change().changeDb(),
                                        o.change().lowDb())));
            }
        }
        return news;
    }

    /**
     * Returns the repaired part.
     *
     * @return its name
     */
    public String part() {
        return part;
    }

    /**
     * Returns how the repaired part stands.
     *
     * @return the state
     */
    public State state() {
        return state;
    }

    /**
     * Returns the proof in a mechanic's words, with interval and luck.
     *
     * @return a few sentences
     */
    public String text() {
        return text;
    }

    /**
     * Returns every part's change.
     *
     * @return in the order of the earlier visit
     */
    public List<PartChange> changes() {
        return changes;
    }

    /**
     * Returns the parts that were not repaired.
     *
     * @return all that could be compared
     */
    public List<Other> others() {
        return others;
    }

    /**
     * Returns what is new since the repair.
     *
     * @return the fault named now and not before, then parts that are clearly louder; perhaps none
     */
    public List<NewFault> newFaults() {
        return newFaults;
    }

    /**
     * Returns the captures that have no like one.
     *
     * @return one sentence each
     */
    public List<String> unlike() {
        return unlike;
    }
}
