package tickover.report;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import tickover.diagnose.BeforeAfter;
import tickover.diagnose.PartChange;
import tickover.diagnose.RepairProof;
import tickover.diagnose.Verdict;
import tickover.diagnose.VisitResult;
import tickover.store.Visit;

/** What the report says of an earlier visit: how levels changed, and what a repair came to. */
final class EarlierVisit {
    private static final double LUCK_SHOWN = 1e-4;

    private final Visit earlier;
    private final VisitResult before;
    private final Visit visit;
    private final VisitResult after;
    private final List<PartChange> changes;

    /** The part that was repaired between the two, with what it came to; none if none is known. */
    private final List<RepairProof> repaired;

    private EarlierVisit(
            Visit earlier, VisitResult before, Visit visit, VisitResult after, String part) {
        this.earlier = earlier;
        this.before = before;
        this.visit = visit;
        this.after = after;
        this.changes = BeforeAfter.visits(before, after);
        this.repaired = part.isEmpty() ? List.of() : List.of(RepairProof.of(before, after, part));
    }

    /**
     * Holds a visit against an earlier one.
     *
     * @param earlier the earlier visit
     * @param before what it said
     * @param visit the visit that is reported
     * @param after what it says
     * @param repairedPart what was repaired between them; empty if nothing is known to have been
     */
    static EarlierVisit of(
            Visit earlier,
            VisitResult before,
            Visit visit,
            VisitResult after,
            String repairedPart) {
        return new EarlierVisit(earlier, before, visit, after, repairedPart);
    }

    /** What the template says where there is no earlier visit. */
    static Map<String, Object> nothing() {
        Map<String, Object> v = new HashMap<>();
        for (String key :
                List.of(
                        "bars",
                        "barsTitle",
                        "proofText",
                        "earlierId",
                        "earlierVersion",
                        "changesAgainst")) {
            v.put(key, "");
        }
        for (String key : List.of("repair", "repairAsk", "beforeAfter", "changes", "unlike")) {
            v.put(key, List.of());
        }
        for (String key : List.of("repaired", "hasEarlier", "hasChanges", "hasChangeRows")) {
            v.put(key, false);
        }
        return v;
    }

    Map<String, Object> values() {
        Map<String, Object> v = nothing();
        v.put("hasEarlier", true);
        v.put("hasChanges", true);
        v.put("repaired", !repaired.isEmpty());
        v.put("repair", repaired.stream().map(RepairWords::headline).toList());
        v.put("bars", subjectChange().map(this::bars).orElse(""));
        v.put("barsTitle", "Vibration that belongs to " + Wording.component(subject()) + ", rms:");
        v.put("repairAsk", repaired.stream().map(EarlierVisit::askFor).toList());
        v.put("beforeAfter", sentences());
        v.put("changesAgainst", against());
        v.put("proofText", String.join(" ", repaired.stream().map(RepairProof::text).toList()));
        v.put("hasChangeRows", !changes.isEmpty());
        v.put("changes", changes.stream().map(EarlierVisit::row).toList());
        v.put("unlike", RepairProof.unlike(before, after));
        v.put("earlierId", earlier.id().toString());
        v.put("earlierVersion", before.codeVersion());
        return v;
    }

    /** What the customer of a repair should ask for. */
    private static String askFor(RepairProof proof) {
        String part = Wording.component(proof.part());
        return switch (proof.state()) {
            case GONE ->
                    "nothing more for "
                            + part
                            + ". If a noise is left to the ear, the test under \"What comes next\","
                            + " before any other part is replaced.";
            case QUIETER, UNPROVEN, LOUDER ->
                    "that the repair of "
                            + part
                            + " is looked at again, before it is paid as done.";
            case NOT_COMPARABLE ->
                    "recordings at the same places in the same conditions as before the repair.";
        };
    }

    private String against() {
        return "Held against the visit of "
                + VisitReport.DATE.format(earlier.date())
                + (earlier.odometerKm().isPresent()
                        ? String.format(
                                Locale.ROOT, ", %.0f km", earlier.odometerKm().getAsDouble())
                        : "")
                + ", like with like.";
    }

    /** The part that the comparison is about for someone who wants one answer. */
    private String subject() {
        if (!repaired.isEmpty()) {
            return repaired.get(0).part();
        }
        return after.findings().verdict() == Verdict.NONE
                        && before.findings().verdict() != Verdict.NONE
                ? before.findings().subject().component()
                : after.findings().subject().component();
    }

    private Optional<PartChange> subjectChange() {
        return changes.stream().filter(c -> c.part().equals(subject())).findFirst();
    }

    private String bars(PartChange c) {
        return BarDrawing.svg(
                "Vibration of " + Wording.component(c.part()) + " before and after",
                List.of(
                        new BarDrawing.Bar(
                                VisitReport.DAY.format(earlier.date()), "", c.beforeRmsMps2()),
                        new BarDrawing.Bar(
                                VisitReport.DAY.format(visit.date()),
                                c.afterHeard() ? "" : "< ",
                                c.afterRmsMps2())));
    }

    private List<String> sentences() {
        List<String> out = new ArrayList<>();
        if (!repaired.isEmpty()) {
            RepairProof proof = repaired.get(0);
            out.add(CustomerPage.inTimes(proof.text()));
            out.addAll(proof.newFaults().stream().map(n -> "New: " + n.text() + ".").toList());
            if (proof.newFaults().isEmpty()) {
                out.add("Nothing new stands out.");
            }
        } else {
            out.add(
                    subjectChange()
                            .map(this::sentence)
                            .orElse(
                                    "Of "
                                            + Wording.component(subject())
                                            + " nothing can be compared with the visit of "
                                            + VisitReport.DAY.format(earlier.date())
                                            + ": no two recordings of it are alike."));
        }
        others().ifPresent(out::add);
        return out;
    }

    private String sentence(PartChange c) {
        String part = Wording.component(c.part());
        String since = " since the visit of " + VisitReport.DAY.format(earlier.date());
        if (!c.isClear()) {
            return "No change of " + part + since + " can be told from scatter.";
        }
        return String.format(
                Locale.ROOT,
                "The vibration that belongs to %s is %s times %s%s (%+.1f dB; 95 %% interval %+.1f"
                        + " to %+.1f dB).",
                part,
                CustomerPage.times(Math.abs(c.changeDb())),
                c.changeDb() > 0 ? "stronger" : "weaker",
                since,
                c.changeDb(),
                c.lowDb(),
                c.highDb());
    }

    /** What became of all other parts, in one sentence. */
    private Optional<String> others() {
        List<PartChange> rest = changes.stream().filter(c -> !c.part().equals(subject())).toList();
        if (rest.isEmpty()) {
            return Optional.empty();
        }
        List<String> changed =
                rest.stream()
                        .filter(PartChange::isClear)
                        .map(c -> Wording.component(c.part()) + " " + Wording.change(c))
                        .toList();
        return Optional.of(
                changed.isEmpty()
                        ? "Of the other parts none changed by more than scatter."
                        : "Of the other parts: "
                                + String.join(", ", changed)
                                + "; the rest unchanged as far as can be told.");
    }

    private static Map<String, Object> row(PartChange c) {
        Map<String, Object> v = new HashMap<>();
        v.put("part", LongWords.column(c.part()));
        v.put("before", BarDrawing.level(c.beforeRmsMps2()));
        v.put("after", (c.afterHeard() ? "" : "< ") + BarDrawing.level(c.afterRmsMps2()));
        v.put("change", String.format(Locale.ROOT, "%+.1f", c.changeDb()));
        v.put("interval", String.format(Locale.ROOT, "%+.1f to %+.1f", c.lowDb(), c.highDb()));
        v.put("pairs", c.pairs());
        v.put("luck", luck(c));
        v.put("words", Wording.change(c));
        return v;
    }

    private static String luck(PartChange c) {
        if (!c.coversTouches()) {
            return "–";
        }
        return c.luckRatio() < LUCK_SHOWN
                ? "<0.01 %"
                : String.format(Locale.ROOT, "%.2g %%", 100 * c.luckRatio());
    }
}
