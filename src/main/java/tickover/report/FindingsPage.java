package tickover.report;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import tickover.diagnose.Candidate;
import tickover.diagnose.Evidence;
import tickover.diagnose.Findings;
import tickover.diagnose.NextTest;
import tickover.diagnose.QualityNote;
import tickover.diagnose.TestRisk;

/** What the report's template says of findings. */
final class FindingsPage {
    private static final int TESTS = 3;

    private FindingsPage() {}

    static Map<String, Object> values(Findings findings) {
        List<Map<String, Object>> candidates = new ArrayList<>();
        for (Candidate c : findings.candidates()) {
            candidates.add(candidate(candidates.size() + 1, c));
        }
        List<Map<String, Object>> tests = new ArrayList<>();
        Set<Caution> cautions = new LinkedHashSet<>();
        for (NextTest t : findings.nextTests().stream().limit(TESTS).toList()) {
            tests.add(test(tests.size() + 1, t));
            cautions.addAll(Caution.forTest(t.kind()));
        }
        return Map.of(
                "candidates",
                candidates,
                "hasNext",
                !tests.isEmpty(),
                "nextTests",
                tests,
                "cautions",
                cautions.stream()
                        .map(c -> Map.of("when", c.when(), "sentences", c.sentences()))
                        .toList(),
                "hasQuality",
                !findings.quality().isEmpty(),
                "quality",
                QualityGroup.of(findings.quality()).stream().map(FindingsPage::quality).toList());
    }

    private static Map<String, Object> candidate(int rank, Candidate c) {
        return Map.of(
                "rank",
                rank,
                "component",
                LongWords.broken(
                        Wording.component(c.component()), LongWords.MOST_LETTERS_OF_COLUMN),
                "fault",
                Wording.fault(c.fault()),
                "percent",
                Wording.percent(c.probability()),
                "hasReasons",
                !c.evidence().isEmpty(),
                "reasons",
                c.evidence().stream().map(FindingsPage::reason).toList());
    }

    private static Map<String, Object> reason(Evidence e) {
        return Map.of(
                "text",
                e.text(),
                "kind",
                Wording.evidence(e.kind()),
                "strengthDb",
                String.format(Locale.ROOT, "%+.1f", e.strengthDb()));
    }

    private static Map<String, Object> test(int rank, NextTest t) {
        return Map.of(
                "rank",
                rank,
                "title",
                Wording.test(t.kind()),
                "text",
                Wording.withoutMarks(t.text()),
                "minutes",
                String.format(Locale.ROOT, "%.0f", t.minutes()),
                "risk",
                TestRisk.of(t.kind()).word(),
                "gain",
                Wording.gain(t.expectedGainBits()),
                "bits",
                String.format(Locale.ROOT, "%.2f", t.expectedGainBits()));
    }

    private static Map<String, Object> quality(QualityGroup group) {
        return Map.of(
                "captures",
                group.captures(),
                "notes",
                group.notes().stream().map(FindingsPage::note).toList(),
                "advice",
                group.advice());
    }

    private static Map<String, Object> note(QualityNote n) {
        return Map.of("problem", Wording.problem(n.problem()), "text", n.text());
    }
}
