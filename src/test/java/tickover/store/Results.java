package tickover.store;

import java.util.List;
import tickover.diagnose.Candidate;
import tickover.diagnose.CaptureSummary;
import tickover.diagnose.Evidence;
import tickover.diagnose.EvidenceKind;
import tickover.diagnose.Fault;
import tickover.diagnose.Findings;
import tickover.diagnose.LineLevel;
import tickover.diagnose.NextTest;
import tickover.diagnose.PartLevel;
import tickover.diagnose.QualityNote;
import tickover.diagnose.QualityProblem;
import tickover.diagnose.Verdict;
import tickover.diagnose.VisitResult;
import tickover.order.TimeRange;

/** Results that have something in every field. The numbers mean nothing. */
final class Results {
    private Results() {}

    static VisitResult of(Visit visit, double idlerLevelMps2) {
        Findings findings =
                new Findings(
                        Verdict.COMPONENT,
                        List.of(
                                new Candidate(
                                        "idler",
                                        Fault.BEARING_INNER_RING,
                                        0.875,
                                        List.of(
                                                new Evidence(EvidenceKind.PATTERN, "l'eau ✓", 14.2),
                                                new Evidence(EvidenceKind.BELT_OFF, "gone", -1.5))),
                                new Candidate("none", Fault.NONE, 0.125, List.of())),
                        List.of(new NextTest("belt-off", "take it off", 10, 0.4)),
                        List.of(
                                new QualityNote(
                                        "c02",
                                        QualityProblem.CLIPPED,
                                        List.of(new TimeRange(0.1, 1 / 3.0), new TimeRange(2, 2.5)),
                                        "0.1 % of the samples"),
                                QualityNote.ofWhole("", QualityProblem.OTHER, "of the visit")));
        List<CaptureSummary> summaries =
                visit.captures().stream()
                        .map(
                                c ->
                                        new CaptureSummary(
                                                c.label(), "tach", 0.1, 780.25, 770, 790, 1 / 3.0))
                        .toList();
        List<LineLevel> lines =
                List.of(
                        new LineLevel(
                                "bearing-inner-ring",
                                11.66,
                                idlerLevelMps2,
                                0.01,
                                List.of("engine", "belt:main")),
                        new LineLevel("turn", 165 / 70.0, 0, 0, List.of()));
        List<PartLevel> levels =
                List.of(
                        new PartLevel("idler", "c02", idlerLevelMps2, 0.01, lines),
                        new PartLevel("idler", "c01", idlerLevelMps2 / 2, 0.02, List.of()),
                        new PartLevel("crank", "c01", 0.1 + 0.2, 0, List.of()));
        return new VisitResult(findings, summaries, levels, "0.1.0", "a=1 b=2");
    }
}
