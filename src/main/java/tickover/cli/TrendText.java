package tickover.cli;

import java.util.ArrayList;
import java.util.List;
import tickover.diagnose.LevelSeries;
import tickover.diagnose.LikeWithLike;
import tickover.diagnose.RepairMark;
import tickover.diagnose.SeriesTrend;
import tickover.diagnose.SisterComparison;
import tickover.diagnose.VehicleTrend;
import tickover.drive.PartWords;
import tickover.report.TrendWords;

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
                                + PartWords.the(series.place().part())
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
        return (m.part().isEmpty() ? "repair" : "repair of " + PartWords.the(m.part()))
                + (m.text().isBlank() ? "" : ": " + m.text());
    }

    private List<String> sentences() {
        List<String> all = new ArrayList<>();
        all.add(TrendWords.newest(trend()));
        trend().lasting().ifPresent(l -> all.add(TrendWords.lasting(l)));
        all.add(TrendWords.rate(trend()));
        TrendWords.verdict(places.get(shown), vehicle).ifPresent(all::add);
        return all;
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
                    PartWords.plain(t.series().place().part()),
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
