package tickover.diagnose;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import tickover.drive.PartWords;

/**
 * Whether a vehicle needs a look, and why: what its last visit found, what its levels do, which
 * repairs are not proven yet.
 *
 * @param urgency 3 if the last visit by itself names a part that also rises, 2 if it names one,
 *     with the earlier visits weighed in, or one rises, 1 if something is open, 0 if nothing is
 * @param reasons strongest first; empty if nothing needs a look
 */
public record VehicleStanding(int urgency, List<Attention> reasons) {
    /** Changes with the rules, so that standings made by older ones are made anew. */
    public static final int RULE_VERSION = 2;

    /** No reason counts as surer than this. */
    private static final double LEAST_CHANCE = 1e-9;

    public VehicleStanding {
        reasons = List.copyOf(reasons);
        if (!(urgency >= 0 && urgency <= 3)) {
            throw new IllegalArgumentException("urgency=" + urgency + ", need 0..3");
        }
    }

    /** What the last visit came to. */
    public static final class LastVisit {
        private final VisitMoment moment;

        /** What it says by itself, then in the light of earlier visits; none if not analysed. */
        private final List<Findings> said;

        private LastVisit(VisitMoment moment, List<Findings> said) {
            this.moment = Objects.requireNonNull(moment, "moment");
            this.said = said;
        }

        /**
         * A visit that nothing is known of yet.
         *
         * @param moment which visit
         * @return the visit
         */
        public static LastVisit notAnalysed(VisitMoment moment) {
            return new LastVisit(moment, List.of());
        }

        /**
         * A visit with a result.
         *
         * @param moment which visit
         * @param alone what it says by itself
         * @param inLight what it says with the earlier visits weighed in, as {@link
         *     Ranking#inLightOf} answers
         * @return the visit
         */
        public static LastVisit of(VisitMoment moment, Findings alone, Findings inLight) {
            return new LastVisit(moment, List.of(alone, inLight));
        }

        /**
         * Returns which visit.
         *
         * @return the moment
         */
        public VisitMoment moment() {
            return moment;
        }

        /**
         * Returns what it came to, with the earlier visits weighed in.
         *
         * @return empty if it was not analysed
         */
        public Optional<Verdict> verdict() {
            return inLight().map(Findings::verdict);
        }

        private Optional<Findings> inLight() {
            return said.isEmpty() ? Optional.empty() : Optional.of(said.get(1));
        }

        /** Whether it names a part without help from earlier visits. */
        private boolean namesByItself(String part) {
            return !said.isEmpty()
                    && said.get(0).verdict() == Verdict.COMPONENT
                    && said.get(0).first().component().equals(part);
        }

        private boolean isChangedByEarlier() {
            return !said.isEmpty() && !said.get(0).equals(said.get(1));
        }
    }

    /**
     * Judges a vehicle that has been seen.
     *
     * @param last its last visit
     * @param trend what its levels say
     * @param marks its repairs
     * @return the standing
     */
    public static VehicleStanding of(LastVisit last, VehicleTrend trend, List<RepairMark> marks) {
        List<Attention> reasons = new ArrayList<>();
        Optional<RepairMark> repaired =
                marks.stream()
                        .filter(m -> m.at().isAfter(last.moment().date()))
                        .max(Comparator.comparing(RepairMark::at));
        finding(last, marks).ifPresent(reasons::add);
        reasons.addAll(rises(trend, last));
        repaired.map(VehicleStanding::unproven).ifPresent(reasons::add);
        reasons.sort(
                Comparator.comparing((Attention a) -> weight(a.kind()))
                        .reversed()
                        .thenComparingDouble(Attention::chance));
        int urgency = reasons.isEmpty() ? 0 : weight(reasons.get(0).kind());
        boolean both =
                reasons.stream()
                        .filter(a -> a.kind() == Attention.Kind.FINDING)
                        .filter(a -> last.namesByItself(a.part()))
                        .anyMatch(
                                a ->
                                        reasons.stream()
                                                .anyMatch(
                                                        b ->
                                                                b.kind() == Attention.Kind.RISE
                                                                        && b.part()
                                                                                .equals(a.part())));
        return new VehicleStanding(both ? 3 : urgency, reasons);
    }

    private static int weight(Attention.Kind kind) {
        return switch (kind) {
            case FINDING, RISE -> 2;
            case UNPROVEN, UNCLEAR, NOT_ANALYSED -> 1;
        };
    }

    private static Optional<Attention> finding(LastVisit last, List<RepairMark> marks) {
        String day = last.moment().date().toLocalDate().toString();
        Optional<Findings> said = last.inLight();
        if (said.isEmpty()) {
            return Optional.of(
                    Attention.of(
                            Attention.Kind.NOT_ANALYSED,
                            "",
                            1,
                            "The visit of "
                                    + day
                                    + " was not analysed yet: ask for its findings."));
        }
        Verdict verdict = said.get().verdict();
        Candidate suspect = said.get().subject();
        String part = suspect.component();
        boolean repaired =
                marks.stream()
                        .anyMatch(m -> m.at().isAfter(last.moment().date()) && m.concerns(part));
        if (repaired || verdict == Verdict.NONE) {
            return Optional.empty();
        }
        String visit =
                "The visit of "
                        + day
                        + (last.isChangedByEarlier() ? ", with earlier ones weighed in," : "");
        String chance = String.format(Locale.ROOT, "%.0f %%", 100 * suspect.probability());
        boolean named = verdict == Verdict.COMPONENT;
        return Optional.of(
                Attention.of(
                        named ? Attention.Kind.FINDING : Attention.Kind.UNCLEAR,
                        part,
                        Math.max(LEAST_CHANCE, 1 - Math.min(1, suspect.probability())),
                        named
                                ? visit
                                        + " names "
                                        + PartWords.the(part)
                                        + " ("
                                        + suspect.fault().words()
                                        + ", "
                                        + chance
                                        + "), and no repair is marked since."
                                : visit
                                        + " does not decide; first suspect "
                                        + PartWords.the(part)
                                        + " with "
                                        + chance
                                        + "."));
    }

    private static Attention unproven(RepairMark mark) {
        String what = mark.text().isBlank() ? "a repair" : "\"" + mark.text() + "\"";
        return Attention.of(
                Attention.Kind.UNPROVEN,
                mark.part(),
                1,
                "After "
                        + what
                        + " on "
                        + mark.at().toLocalDate()
                        + " nothing was measured yet; one visit would prove the repair.");
    }

    /** One reason per part, from the series that is the least likely chance. */
    private static List<Attention> rises(VehicleTrend trend, LastVisit last) {
        Map<String, List<VehicleTrend.Judged>> byPart = new LinkedHashMap<>();
        for (VehicleTrend.Judged j : trend.series()) {
            boolean fresh = j.trend().series().newest().visit().id().equals(last.moment().id());
            if (fresh && j.needsAttention()) {
                byPart.computeIfAbsent(j.trend().series().place().part(), p -> new ArrayList<>())
                        .add(j);
            }
        }
        List<Attention> reasons = new ArrayList<>();
        byPart.forEach((part, all) -> reasons.add(rise(part, all)));
        return reasons;
    }

    private static Attention rise(String part, List<VehicleTrend.Judged> all) {
        VehicleTrend.Judged first =
                all.stream()
                        .min(Comparator.comparingDouble(VehicleTrend.Judged::adjustedChance))
                        .orElseThrow();
        SeriesTrend t = first.trend();
        StringBuilder text = new StringBuilder(PartWords.start(part)).append(" is louder: ");
        OptionalDouble change = OptionalDouble.empty();
        if (t.newest().isPresent() && t.baseline().isPresent()) {
            NewestLevel newest = t.newest().get();
            int visits = t.baseline().get().visits();
            change = OptionalDouble.of(newest.changeDb());
            text.append(
                    String.format(
                            Locale.ROOT,
                            "%+.1f dB against the mean of %d visit%s before it; scatter explains"
                                    + " %.1f dB",
                            newest.changeDb(),
                            visits,
                            visits == 1 ? "" : "s",
                            newest.limitDb()));
        }
        t.lasting()
                .filter(l -> l.upFor() >= 3)
                .ifPresent(l -> text.append(", up for ").append(l.upFor()).append(" visits"));
        t.perYear()
                .flatMap(TheilSen::interval)
                .filter(i -> i.low() > 0)
                .ifPresent(
                        i ->
                                text.append(
                                        String.format(
                                                Locale.ROOT,
                                                ", rising by %.1f dB a year",
                                                t.perYear().get().slope())));
        text.append(" (").append(t.series().place().words());
        if (all.size() > 1) {
            text.append("; also at ")
                    .append(all.size() - 1)
                    .append(all.size() == 2 ? " other place" : " other places");
        }
        text.append(").");
        Attention reason =
                Attention.of(
                        Attention.Kind.RISE,
                        part,
                        Math.max(LEAST_CHANCE, first.adjustedChance()),
                        text.toString());
        return change.isPresent() ? reason.withChangeDb(change.getAsDouble()) : reason;
    }

    /**
     * Returns how strong the strongest reason is, for ranking vehicles of one urgency.
     *
     * @return decades by which the chance that nothing is the matter falls short of 1; 0 without a
     *     reason
     */
    public double strength() {
        return reasons.stream()
                .filter(a -> a.chance() > 0)
                .mapToDouble(a -> -Math.log10(a.chance()))
                .max()
                .orElse(0);
    }
}
