package tickover.cli;

import com.google.gson.JsonObject;
import java.util.List;
import tickover.diagnose.LevelSeries;
import tickover.diagnose.SeriesTrend;
import tickover.diagnose.SisterComparison;
import tickover.diagnose.TheilSen;
import tickover.diagnose.TimeToLevel;
import tickover.diagnose.VehicleTrend;

/** A part's levels as JSON and CSV. */
final class TrendTable {
    private TrendTable() {}

    static JsonObject json(VehicleTrend.Judged judged) {
        SeriesTrend t = judged.trend();
        LevelSeries.Place place = t.series().place();
        JsonObject o = new JsonObject();
        o.addProperty("part", place.part());
        o.addProperty("point", place.point());
        o.addProperty("axis", place.axis());
        o.addProperty("mount", place.mount().word());
        o.addProperty("regime", place.regime().word());
        o.addProperty("condition", place.condition().toString());
        Json.put(o, "speedRpm", place.speedRpm());
        t.restart()
                .ifPresent(
                        m -> {
                            o.addProperty("repair", m.id().toString());
                            o.addProperty("repairedAt", m.at().toString());
                        });
        o.addProperty("visitsSinceRepair", t.current().size());
        Json.putIfPresent(o, "changeDb", t.changeDb());
        t.baseline()
                .ifPresent(
                        b -> {
                            o.addProperty("baselineVisits", b.visits());
                            Json.put(o, "baselineMeanDb", b.meanDb());
                            Json.put(o, "baselineMedianDb", b.medianDb());
                            Json.put(o, "robustScatterDb", b.robustScatterDb());
                            Json.put(o, "scatterDb", b.scatterDb());
                            Json.put(o, "degreesOfFreedom", b.degrees());
                        });
        t.newest().ifPresent(n -> Json.put(o, "limitDb", n.limitDb()));
        o.addProperty("standsOut", t.newest().map(n -> n.standsOut()).orElse(false));
        t.lasting()
                .ifPresent(
                        l -> {
                            Json.put(o, "movingAverageSigmas", l.average());
                            Json.put(o, "movingAverageLimitSigmas", l.averageLimit());
                            Json.put(o, "cumulativeUpSigmas", l.up());
                            Json.put(o, "cumulativeDownSigmas", l.down());
                            o.addProperty("lastingRise", l.rises());
                            o.addProperty("lastingFall", l.falls());
                        });
        t.perYear().ifPresent(r -> rate(o, "dbPerYear", r));
        t.perTenThousandKm().ifPresent(r -> rate(o, "dbPer10000Km", r));
        t.order()
                .ifPresent(
                        m -> {
                            o.addProperty("mannKendallSum", m.sum());
                            Json.put(o, "rankCorrelation", m.rankCorrelation());
                        });
        Json.putIfPresent(o, "chanceOfRise", t.chanceOfRise());
        Json.put(o, "adjustedChance", judged.adjustedChance());
        o.addProperty("needsAttention", judged.needsAttention());
        o.add("levels", Json.array(t.series().points(), p -> point(t, p)));
        return o;
    }

    private static void rate(JsonObject o, String key, TheilSen rate) {
        Json.put(o, key, rate.slope());
        rate.interval()
                .ifPresent(
                        i -> {
                            Json.put(o, key + "Low", i.low());
                            Json.put(o, key + "High", i.high());
                        });
    }

    private static JsonObject point(SeriesTrend t, LevelSeries.Point p) {
        JsonObject o = new JsonObject();
        o.addProperty("visit", p.visit().id().toString());
        o.addProperty("date", p.visit().date().toString());
        Json.putIfPresent(o, "odometerKm", p.visit().odometerKm());
        Json.put(o, "meanSpeedRpm", p.meanSpeedRpm());
        Json.put(o, "levelRmsMps2", p.levelRmsMps2());
        Json.put(o, "standardErrorMps2", p.standardErrorMps2());
        Json.put(o, "levelDb", p.levelDb());
        Json.put(o, "standardErrorDb", p.standardErrorDb());
        o.addProperty("touches", p.touches());
        o.addProperty("belowError", p.belowError());
        o.addProperty("sinceRepair", t.current().contains(p));
        o.addProperty("leftOut", t.strays().contains(p));
        return o;
    }

    static JsonObject json(SisterComparison s) {
        JsonObject o = new JsonObject();
        o.add("units", Json.words(s.units()));
        o.add("leftOut", Json.words(s.strayUnits()));
        Json.put(o, "medianDb", s.usual().medianDb());
        Json.put(o, "scatterDb", s.usual().scatterDb());
        Json.put(o, "changeDb", s.newest().changeDb());
        Json.put(o, "limitDb", s.newest().limitDb());
        o.addProperty("standsOut", s.newest().standsOut());
        return o;
    }

    static JsonObject json(TimeToLevel reach, double levelDb) {
        JsonObject o = new JsonObject();
        Json.put(o, "levelDb", levelDb);
        o.addProperty(
                "answer",
                switch (reach.kind()) {
                    case REACHED -> "reached";
                    case EXPECTED -> "expected";
                    case NOT_BORNE -> "not-borne";
                });
        if (!reach.reason().isEmpty()) {
            o.addProperty("reason", reach.reason());
        }
        reach.earliest().ifPresent(d -> o.addProperty("earliest", d.toString()));
        reach.likely().ifPresent(d -> o.addProperty("likely", d.toString()));
        reach.latest().ifPresent(d -> o.addProperty("latest", d.toString()));
        return o;
    }

    static String sentence(TimeToLevel reach, double levelDb) {
        String level = Prose.fixed(levelDb, 1) + " dB re 1 m/s²";
        return switch (reach.kind()) {
            case REACHED -> level + " is reached already.";
            case NOT_BORNE ->
                    "When " + level + " is reached cannot be said: " + reach.reason() + ".";
            case EXPECTED ->
                    level
                            + " would be reached about "
                            + reach.likely().orElseThrow()
                            + ", at the earliest "
                            + reach.earliest().orElseThrow()
                            + reach.latest()
                                    .map(d -> ", at the latest " + d)
                                    .orElse(
                                            ", or later than "
                                                    + reach.horizon().orElseThrow()
                                                    + ", which is as far as the visits bear")
                            + " (95 %, if it goes on as it did; damage tends to speed up).";
        };
    }

    static String csv(String unit, List<VehicleTrend.Judged> all) {
        Csv csv =
                new Csv(
                        "unit",
                        "part",
                        "point",
                        "axis",
                        "mount",
                        "regime",
                        "condition",
                        "visit",
                        "date",
                        "odometer_km",
                        "mean_speed_rpm",
                        "level_db",
                        "standard_error_db",
                        "level_rms_mps2",
                        "touches",
                        "below_error",
                        "since_repair",
                        "left_out");
        for (VehicleTrend.Judged j : all) {
            LevelSeries.Place place = j.trend().series().place();
            for (LevelSeries.Point p : j.trend().series().points()) {
                csv.row(
                        unit,
                        place.part(),
                        place.point(),
                        place.axis(),
                        place.mount().word(),
                        place.regime().word(),
                        place.condition(),
                        p.visit().id(),
                        p.visit().date(),
                        p.visit().odometerKm().isPresent()
                                ? p.visit().odometerKm().getAsDouble()
                                : "",
                        p.meanSpeedRpm(),
                        p.levelDb(),
                        p.standardErrorDb(),
                        p.levelRmsMps2(),
                        p.touches(),
                        p.belowError(),
                        j.trend().current().contains(p),
                        j.trend().strays().contains(p));
            }
        }
        return csv.text();
    }
}
