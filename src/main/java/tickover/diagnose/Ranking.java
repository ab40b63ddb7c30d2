package tickover.diagnose;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tickover.drive.PartWords;
import tickover.drive.Vehicle;

/**
 * Ranks the components of a visit and says why.
 *
 * <p>In: the evidence of a visit and a model. Out: findings. A component's probability is the sum
 * over its possible faults; the fault that is named is its most probable one.
 */
public final class Ranking {
    /** Below this the evidence does not decide. */
    static final double NAME_FROM_PROBABILITY = 0.8;

    /** From here on a healthy engine is called healthy. */
    static final double HEALTHY_FROM_PROBABILITY = 0.5;

    /** Reasons are given for this many of the candidates. */
    private static final int EXPLAINED = 5;

    private final VisitEvidence evidence;
    private final Complaint complaint;
    private final RankingModel model;

    private Ranking(VisitEvidence evidence, Complaint complaint, RankingModel model) {
        this.evidence = evidence;
        this.complaint = complaint;
        this.model = model;
    }

    /**
     * Ranks.
     *
     * @param evidence the visit
     * @param complaint what the driver said
     * @param model the weights
     * @param quality what limits the captures, passed on
     * @return the findings
     */
    public static Findings of(
            VisitEvidence evidence,
            Complaint complaint,
            RankingModel model,
            List<QualityNote> quality) {
        return new Ranking(evidence, complaint, model).findings(quality);
    }

    private Findings findings(List<QualityNote> quality) {
        List<SuspectClues> suspects = evidence.suspects();
        double[] p =
                isHeard()
                        ? withComplaint(model.probabilities(suspects))
                        : RankingModel.unheard(suspects);
        Map<String, Double> byComponent = new LinkedHashMap<>();
        Map<String, SuspectClues> likeliest = new LinkedHashMap<>();
        Map<String, Double> likeliestP = new LinkedHashMap<>();
        for (int i = 0; i < suspects.size(); i++) {
            String component = suspects.get(i).suspect().component();
            byComponent.merge(component, p[i], Double::sum);
            if (p[i] > likeliestP.getOrDefault(component, -1.0)) {
                likeliestP.put(component, p[i]);
                likeliest.put(component, suspects.get(i));
            }
        }
        byComponent.merge(Candidate.NONE, p[p.length - 1], Double::sum);
        List<Map.Entry<String, Double>> order = new ArrayList<>(byComponent.entrySet());
        order.sort(Map.Entry.<String, Double>comparingByValue(Comparator.reverseOrder()));
        List<Candidate> candidates = new ArrayList<>();
        for (Map.Entry<String, Double> e : order) {
            candidates.add(candidate(e.getKey(), e.getValue(), likeliest, candidates.size()));
        }
        List<NextTest> tests =
                TestPlanner.plan(
                        evidence.drive().vehicle(),
                        candidates,
                        evidence.captures().stream().map(CaptureMeasurement::label).toList());
        Verdict verdict =
                isHeard()
                        ? verdict(candidates.get(0), !evidence.drive().parts().isEmpty())
                        : Verdict.UNCLEAR;
        return new Findings(verdict, candidates, tests, quality);
    }

    /** The odds of every suspect, and last of a healthy engine, times what the complaint says. */
    private double[] withComplaint(double[] p) {
        List<SuspectClues> suspects = evidence.suspects();
        double[] out = new double[p.length];
        double sum = 0;
        for (int i = 0; i < p.length; i++) {
            double nats =
                    i < suspects.size()
                            ? complaint.nats(suspects.get(i).suspect().group())
                            : complaint.healthyNats();
            out[i] = p[i] * Math.exp(nats);
            sum += out[i];
        }
        for (int i = 0; i < out.length; i++) {
            out[i] /= sum;
        }
        return out;
    }

    /**
     * Ranks again in the light of earlier visits.
     *
     * @param found what the visit says by itself
     * @param vehicle the vehicle
     * @param done what was recorded at the visit
     * @param risen how far parts have risen since earlier visits
     * @return the findings with each part's odds multiplied by what its rise says; the same
     *     findings if none of the candidates is among the parts
     */
    public static Findings inLightOf(
            Findings found, Vehicle vehicle, List<CaptureLabel> done, List<Risen> risen) {
        Map<String, Risen> byPart = new LinkedHashMap<>();
        risen.forEach(r -> byPart.put(r.part(), r));
        if (found.candidates().stream().noneMatch(c -> byPart.containsKey(c.component()))) {
            return found;
        }
        double sum = 0;
        for (Candidate c : found.candidates()) {
            sum += c.probability() * Math.exp(nats(byPart, c));
        }
        List<Candidate> candidates = new ArrayList<>();
        for (Candidate c : found.candidates()) {
            double p = Math.min(1, c.probability() * Math.exp(nats(byPart, c)) / sum);
            List<Evidence> reasons = new ArrayList<>(c.evidence());
            if (!reasons.isEmpty() && byPart.containsKey(c.component())) {
                reasons.add(Reasons.history(byPart.get(c.component())));
                reasons.sort(Reasons.STRONGEST_FIRST);
            }
            candidates.add(new Candidate(c.component(), c.fault(), p, reasons));
        }
        candidates.sort(Comparator.comparingDouble(Candidate::probability).reversed());
        return new Findings(
                verdict(candidates.get(0), true),
                candidates,
                TestPlanner.plan(vehicle, candidates, done),
                found.quality());
    }

    private static double nats(Map<String, Risen> byPart, Candidate candidate) {
        Risen risen = byPart.get(candidate.component());
        return risen == null ? 0 : risen.nats();
    }

    /** Whether anything was recorded in an ordinary condition. */
    private boolean isHeard() {
        return !new Comparison(evidence.captures()).ordinary().isEmpty();
    }

    private Candidate candidate(
            String component, double probability, Map<String, SuspectClues> likeliest, int place) {
        double capped = Math.min(1, probability);
        if (component.equals(Candidate.NONE)) {
            return new Candidate(
                    component, Fault.NONE, capped, List.of(healthyEvidence(likeliest.values())));
        }
        SuspectClues s = likeliest.get(component);
        List<Evidence> reasons = new ArrayList<>();
        if (place < EXPLAINED && isHeard()) {
            reasons.addAll(new Reasons(evidence, model).of(s));
            if (complaint.speaks()) {
                reasons.add(complaint.reason(s.suspect().group()));
                reasons.sort(Reasons.STRONGEST_FIRST);
            }
        }
        return new Candidate(component, s.suspect().fault(), capped, reasons);
    }

    private Evidence healthyEvidence(Iterable<SuspectClues> likeliest) {
        if (!isHeard()) {
            return new Evidence(
                    EvidenceKind.PATTERN, "Nothing was recorded that could be judged.", 0);
        }
        SuspectClues nearest = null;
        double top = Double.NEGATIVE_INFINITY;
        for (SuspectClues s : likeliest) {
            double score = model.score(s);
            if (score > top) {
                top = score;
                nearest = s;
            }
        }
        String text =
                nearest == null
                        ? "Nothing was recorded that could be judged."
                        : "What comes nearest to a fault is "
                                + PartWords.the(nearest.suspect().component())
                                + " ("
                                + nearest.suspect().fault().words()
                                + ")"
                                + (top < 0
                                        ? ", and it stands out less than parts of healthy engines"
                                                + " do."
                                        : ", which stands out more than on most healthy engines.");
        return new Evidence(EvidenceKind.PATTERN, text, nearest == null ? 0 : -Reasons.TO_DB * top);
    }

    private static Verdict verdict(Candidate first, boolean driveIsDescribed) {
        if (first.component().equals(Candidate.NONE)) {
            // Of a drive that nobody described nothing can be said, least of all that it is sound.
            return driveIsDescribed && first.probability() >= HEALTHY_FROM_PROBABILITY
                    ? Verdict.NONE
                    : Verdict.UNCLEAR;
        }
        return first.probability() >= NAME_FROM_PROBABILITY ? Verdict.COMPONENT : Verdict.UNCLEAR;
    }
}
