package tickover.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tickover.diagnose.LastingShift;
import tickover.diagnose.LevelBaseline;
import tickover.diagnose.LevelSeries;
import tickover.diagnose.LikeWithLike;
import tickover.diagnose.NewestLevel;
import tickover.diagnose.RepairMark;
import tickover.diagnose.SeriesTrend;
import tickover.diagnose.SisterComparison;
import tickover.diagnose.TheilSen;
import tickover.diagnose.VehicleTrend;

/** Says what a part's levels do over the visits, in words and a table. */
final class TrendText {
    private static final int BAR_MARKS = 24;

    private final String unit;
    private final VehicleTrend vehicle;
    private final List<VehicleTrend.Judged> places;
    private final int shown;

    /**
     * @param unit how the fleet calls the vehicle
     * @param vehicle how all of it stands
     * @param part a part with a level
     * @param shown which of the part's places, from 0
     */
    TrendText(String unit, VehicleTrend vehicle, String part, int shown) {
        this.unit = unit;
        this.vehicle = vehicle;
        this.places = vehicle.of(part);
        this.shown = shown;
    }

    private SeriesTrend trend() {
        return places.get(shown).trend();
    }

    List<String> lines(List<SisterComparison> sisters) {
        LevelSeries series = trend().series();
        List<String> lines = new ArrayList<>();
        lines.addAll(
                Prose.fold(
                        "",
                        unit
                                + ", level of "
                                + series.place().part()
                                + " "
                                + series.place().words()));
        lines.add("");
        lines.addAll(table());
        lines.add("");
        sentences().forEach(s -> lines.addAll(Prose.fold("", s)));
        sisters.forEach(s -> lines.addAll(Prose.fold("", sisters(s))));
        lines.addAll(leftOut());
        return lines;
    }

    private List<String> table() {
        TextTable table =
                new TextTable(
                        "Date",
                        ">Odometer, km",
                        ">Speed, rpm",
                        ">Level, m/s²",
                        ">dB re 1 m/s²",
                        ">+-, dB",
                        ">Touches",
                        "");
        List<LevelSeries.Point> points = trend().series().points();
        double loudest =
                points.stream().mapToDouble(LevelSeries.Point::levelRmsMps2).max().orElse(1);
        boolean marked = trend().restart().isEmpty();
        for (LevelSeries.Point p : points) {
            if (!marked && trend().current().contains(p)) {
                repairRow(table);
                marked = true;
            }
            int marks = (int) Math.round(BAR_MARKS * p.levelRmsMps2() / loudest);
            table.row(
                    p.visit().date().toLocalDate().toString(),
                    p.visit().odometerKm().isPresent()
                            ? Prose.fixed(p.visit().odometerKm().getAsDouble(), 0)
                            : "-",
                    Prose.fixed(p.meanSpeedRpm(), 0),
                    (p.belowError() ? "< " : "") + Prose.three(p.levelRmsMps2()),
                    Prose.fixed(p.levelDb(), 1),
                    Prose.fixed(p.standardErrorDb(), 1),
                    Integer.toString(p.touches()),
                    "#".repeat(marks) + (trend().strays().contains(p) ? " (left out)" : ""));
        }
        if (!marked) {
            repairRow(table);
        }
        return table.lines();
    }

    private void repairRow(TextTable table) {
        RepairMark m = trend().restart().orElseThrow();
        table.row(m.at().toLocalDate().toString(), "", "", "", "", "", "", "-- " + repair(m));
    }

    private static String repair(RepairMark m) {
        return (m.part().isEmpty() ? "repair" : "repair of " + m.part())
                + (m.text().isBlank() ? "" : ": " + m.text());
    }

    private List<String> sentences() {
        List<String> all = new ArrayList<>();
        all.add(newest());
        trend().lasting().ifPresent(l -> all.add(lasting(l)));
        all.add(rate());
        verdict().ifPresent(all::add);
        return all;
    }

    private String since() {
        return trend().restart()
                .map(m -> " since the repair of " + m.at().toLocalDate())
                .orElse("");
    }

    private String newest() {
        int visits = trend().current().size();
        if (visits == 0) {
            return "There was no visit" + since() + "; the next one begins the new baseline.";
        }
        if (trend().changeDb().isEmpty()) {
            return "One visit" + since() + " is where the baseline begins; nothing to compare yet.";
        }
        String change =
                "The newest level is "
                        + Prose.signed(trend().changeDb().getAsDouble(), 1)
                        + " dB against the mean of ";
        if (trend().newest().isEmpty()) {
            return change
                    + (visits == 2 ? "the one earlier visit" : "the earlier visits")
                    + since()
                    + "; so few visits, and so few levels of other parts, cannot tell how much of"
                    + " that is scatter.";
        }
        LevelBaseline b = trend().baseline().orElseThrow();
        NewestLevel n = trend().newest().orElseThrow();
        return change
                + (b.visits() == LevelBaseline.MOST_VISITS ? "the first " : "")
                + b.visits()
                + (b.visits() == 1 ? " visit" : " visits")
                + " before it"
                + since()
                + "; "
                + (n.standsOut()
                        ? "that is more than the " + Prose.fixed(n.limitDb(), 1) + " dB"
                        : "scatter would explain up to " + Prose.fixed(n.limitDb(), 1) + " dB")
                + (n.standsOut() ? " that scatter would explain" : "")
                + " (from visit to visit "
                + Prose.fixed(b.scatterDb(), 1)
                + " dB; median of the visits "
                + Prose.fixed(b.medianDb(), 1)
                + ", robust scatter "
                + Prose.fixed(b.robustScatterDb(), 1)
                + " dB).";
    }

    private static String lasting(LastingShift l) {
        String figures =
                " (moving average "
                        + Prose.signed(l.average(), 2)
                        + " of ±"
                        + Prose.fixed(l.averageLimit(), 2)
                        + ", cumulative sums "
                        + Prose.fixed(l.up(), 1)
                        + " up and "
                        + Prose.fixed(l.down(), 1)
                        + " down of 5, in standard deviations of a visit).";
        if (l.rises()) {
            return "It has been higher for " + l.upFor() + " visits, lastingly" + figures;
        }
        if (l.falls()) {
            return "It has been lower for " + l.downFor() + " visits, lastingly" + figures;
        }
        if (Math.abs(l.average()) > l.averageLimit()) {
            String where = l.average() > 0 ? "high" : "low";
            return "The last visits together are " + where + figures;
        }
        return "No small shift lasts over the visits" + figures;
    }

    private String rate() {
        if (trend().perYear().isEmpty()) {
            return "A rate of change needs "
                    + SeriesTrend.FEWEST_FOR_RATE
                    + " visits"
                    + since()
                    + "; there "
                    + (trend().current().size() == 1 ? "is " : "are ")
                    + trend().current().size()
                    + ".";
        }
        String text = "Rate of change: " + rate(trend().perYear().get(), "a year");
        return text
                + trend().perTenThousandKm().map(r -> "; " + rate(r, "per 10,000 km")).orElse("")
                + ".";
    }

    private static String rate(TheilSen rate, String per) {
        return Prose.signed(rate.slope(), 1)
                + " dB "
                + per
                + rate.interval()
                        .map(
                                i ->
                                        " (95 %: "
                                                + Prose.signed(i.low(), 1)
                                                + " to "
                                                + Prose.signed(i.high(), 1)
                                                + ")")
                        .orElse(" (too few visits for an interval)");
    }

    private Optional<String> verdict() {
        VehicleTrend.Judged j = places.get(shown);
        if (j.trend().chanceOfRise().isEmpty()) {
            return Optional.empty();
        }
        double percent = 100 * j.adjustedChance();
        String chance = percent < 0.1 ? "less than 0.1 %" : Prose.fixed(percent, 1) + " %";
        return Optional.of(
                j.needsAttention()
                        ? "It needs a look: so much rise in any of the "
                                + vehicle.asked()
                                + " series of the last visit comes by chance in "
                                + chance
                                + " of visits."
                        : "No call for a look from this: of an unchanged vehicle, "
                                + chance
                                + " of visits show as much rise somewhere in their "
                                + vehicle.asked()
                                + " series.");
    }

    private static String sisters(SisterComparison s) {
        return s.units().size()
                + " sisters of the same drive stand at "
                + Prose.fixed(s.usual().medianDb(), 1)
                + " dB (median); this one is "
                + Prose.signed(s.newest().changeDb(), 1)
                + " dB against their mean, "
                + (s.newest().standsOut() ? "more than the " : "within the ")
                + Prose.fixed(s.newest().limitDb(), 1)
                + " dB by which sound sisters differ."
                + (s.strayUnits().isEmpty()
                        ? ""
                        : " Left out, far from the rest: "
                                + String.join(", ", s.strayUnits())
                                + ".");
    }

    private List<String> leftOut() {
        List<String> lines = new ArrayList<>();
        if (places.size() > 1) {
            lines.add("");
            lines.add("Not mixed in, because something differs (--place shows it):");
            for (int i = 0; i < places.size(); i++) {
                if (i != shown) {
                    LevelSeries other = places.get(i).trend().series();
                    lines.add(
                            "  --place "
                                    + (i + 1)
                                    + ": "
                                    + LikeWithLike.difference(
                                            trend().series().place(), other.place())
                                    + "; "
                                    + other.points().size()
                                    + (other.points().size() == 1 ? " visit" : " visits")
                                    + (places.get(i).needsAttention() ? ", needs a look" : ""));
                }
            }
        }
        String part = trend().series().place().part();
        long without =
                vehicle.sorted().withoutLevel().stream().filter(m -> m.part().equals(part)).count();
        if (without > 0) {
            lines.add(
                    "Left out: "
                            + without
                            + (without == 1 ? " capture" : " captures")
                            + " in which the part has no line of its own.");
        }
        return lines;
    }

    /** One row per series of the vehicle. */
    static List<String> overview(String unit, VehicleTrend vehicle) {
        List<String> lines = new ArrayList<>();
        lines.add(unit + ", every part's level, dB re 1 m/s²");
        lines.add("");
        TextTable table =
                new TextTable(
                        "Part",
                        "Place",
                        ">Visits",
                        ">Newest, dB",
                        ">Change",
                        ">Limit",
                        "Chance",
                        "");
        for (VehicleTrend.Judged j : vehicle.series()) {
            SeriesTrend t = j.trend();
            table.row(
                    t.series().place().part(),
                    t.series().place().words().replaceFirst("^at ", ""),
                    Integer.toString(t.current().size()),
                    Prose.fixed(t.series().newest().levelDb(), 1),
                    t.changeDb().isPresent() ? Prose.signed(t.changeDb().getAsDouble(), 1) : "-",
                    t.newest().map(n -> Prose.fixed(n.limitDb(), 1)).orElse("-"),
                    t.chanceOfRise().isPresent() ? Prose.three(j.adjustedChance()) : "-",
                    j.needsAttention() ? "! look" : "");
        }
        lines.addAll(table.lines());
        lines.add("");
        lines.addAll(
                Prose.fold(
                        "",
                        "Change: newest visit against the mean of the earlier ones since the last"
                            + " repair. Limit: what scatter explains, 19 times of 20. Chance: share"
                            + " of visits at which an unchanged vehicle shows as much rise in any"
                            + " of the "
                                + vehicle.asked()
                                + " series that its last visit added to."));
        return lines;
    }
}
