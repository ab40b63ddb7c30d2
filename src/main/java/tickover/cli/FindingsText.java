package tickover.cli;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import tickover.diagnose.Candidate;
import tickover.diagnose.Evidence;
import tickover.diagnose.Findings;
import tickover.diagnose.NextTest;
import tickover.diagnose.QualityNote;
import tickover.diagnose.TestRisk;
import tickover.report.Caution;
import tickover.report.QualityGroup;
import tickover.report.Wording;

/** Findings as a mechanic reads them. */
final class FindingsText {
    /** Candidates that are listed, and those of them whose reasons are given. */
    private static final int LISTED = 6;

    private static final int EXPLAINED = 2;
    private static final int REASONS = 5;

    private FindingsText() {}

    /** The whole answer. */
    static List<String> lines(VisitHandle visit, Findings findings) {
        List<String> lines = new ArrayList<>();
        lines.add(visit.title());
        if (!visit.visit().complaint().isBlank()) {
            lines.addAll(Prose.fold("Complaint: ", visit.visit().complaint()));
        }
        lines.add("");
        lines.addAll(Prose.fold("", Wording.headline(findings)));
        lines.addAll(Prose.fold("", Wording.howSure(findings)));
        lines.add("");
        lines.addAll(ranking(findings));
        lines.addAll(reasons(findings));
        lines.addAll(nextTest(findings));
        lines.addAll(quality(findings));
        return lines;
    }

    private static List<String> ranking(Findings findings) {
        TextTable table = new TextTable("Suspect", "", ">Probability", "What would be wrong");
        findings.candidates().stream()
                .limit(LISTED)
                .forEach(
                        c ->
                                table.row(
                                        Wording.component(c.component()),
                                        Prose.bar(c.probability()),
                                        Wording.percent(c.probability()),
                                        Wording.fault(c.fault())));
        return table.lines();
    }

    private static List<String> reasons(Findings findings) {
        List<String> lines = new ArrayList<>();
        findings.candidates().stream()
                .filter(c -> !c.evidence().isEmpty())
                .limit(EXPLAINED)
                .forEach(
                        c -> {
                            lines.add("");
                            lines.add(why(c));
                            c.evidence().stream()
                                    .limit(REASONS)
                                    .forEach(e -> lines.addAll(reason(e)));
                        });
        return lines;
    }

    private static String why(Candidate c) {
        return "Why " + Wording.component(c.component()) + " (+ speaks for it, - against it):";
    }

    private static List<String> reason(Evidence e) {
        String mark = e.strengthDb() >= 0 ? "  + " : "  - ";
        return Prose.fold(
                mark,
                e.text()
                        + " ("
                        + Wording.evidence(e.kind())
                        + ", "
                        + Wording.weight(e.strengthDb())
                        + ")");
    }

    private static List<String> nextTest(Findings findings) {
        List<String> lines = new ArrayList<>();
        if (findings.nextTests().isEmpty()) {
            return lines;
        }
        lines.add("");
        lines.add("What to do next, what tells most for its time and risk first:");
        Set<Caution> cautions = new LinkedHashSet<>();
        int place = 1;
        for (NextTest t : findings.nextTests()) {
            lines.add(
                    "  "
                            + place++
                            + ". "
                            + Wording.test(t.kind())
                            + ", about "
                            + Prose.fixed(t.minutes(), 0)
                            + " min, "
                            + TestRisk.of(t.kind()).word()
                            + ", "
                            + Wording.gain(t.expectedGainBits()));
            lines.addAll(Prose.fold("     ", t.text()));
            cautions.addAll(Caution.forTest(t.kind()));
        }
        lines.addAll(cautions(List.copyOf(cautions)));
        return lines;
    }

    /** The cautions of a step, the one that defers to others last. */
    static List<String> cautions(List<Caution> cautions) {
        List<String> lines = new ArrayList<>();
        for (Caution caution : cautions) {
            lines.add("");
            lines.add("  ! Caution " + caution.when() + ":");
            caution.sentences().forEach(s -> lines.addAll(Prose.fold("    - ", s)));
        }
        lines.addAll(Prose.fold("    ", Caution.comesFirst()));
        return lines;
    }

    private static List<String> quality(Findings findings) {
        List<String> lines = new ArrayList<>();
        if (findings.quality().isEmpty()) {
            return lines;
        }
        lines.add("");
        lines.add("Quality of the captures:");
        for (QualityGroup group : QualityGroup.of(findings.quality())) {
            lines.addAll(Prose.fold("  ", group.captures() + ":"));
            for (QualityNote note : group.notes()) {
                lines.addAll(
                        Prose.fold("    - ", Wording.problem(note.problem()) + ": " + note.text()));
            }
            if (!group.advice().isEmpty()) {
                lines.addAll(Prose.fold("    ", group.advice()));
            }
        }
        return lines;
    }
}
