package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tickover.drive.Condition;

class SeriesTrendTest {
    private static final double ROUND_OFF_DB = 1e-9;

    private static SeriesTrend alone(double... db) {
        return one(new Histories().part("idler", db).levels(), List.of());
    }

    private static SeriesTrend one(List<MeasuredLevel> levels, List<RepairMark> marks) {
        List<LevelSeries> series = LikeWithLike.of(levels).series();
        assertEquals(1, series.size());
        return SeriesTrend.of(series.get(0), marks, ScatterPrior.NONE);
    }

    /** Five visits allow t sqrt(1 + 1/n) = 3.04 of their scatter; from the domain's tables. */
    @Test
    void limitIsThatOfFewVisits() {
        SeriesTrend trend = alone(-2, -1, 0, 1, 2, 4.5);
        NewestLevel newest = trend.newest().orElseThrow();
        double printed = 0.005;
        assertEquals(3.04, newest.limitDb() / Math.sqrt(10.0 / 4), printed);
        assertEquals(4.5, newest.changeDb(), ROUND_OFF_DB);
        assertFalse(newest.standsOut());
    }

    @Test
    void twoEarlierVisitsAloneAreTooFew() {
        assertTrue(alone(0, 1, 20).newest().isEmpty());
        assertTrue(alone(0, 1, 20).chanceOfRise().isEmpty());
        assertTrue(alone(0, 1, 2, 20).newest().isPresent());
    }

    /** What the vehicle's other series scatter stands in for what one short series cannot know. */
    @Test
    void otherSeriesLendTheirScatter() {
        Histories h = new Histories().part("idler", 0, 0.5, 14);
        for (int i = 0; i < 8; i++) {
            h.part("p" + i, i + 0.4, i - 0.7, i + 0.3 * (i % 3));
        }
        VehicleTrend trend = VehicleTrend.of(h.levels(), List.of());
        assertTrue(trend.prior().degrees() > 3, trend.prior().toString());
        VehicleTrend.Judged idler = trend.of("idler").get(0);
        assertTrue(idler.needsAttention(), "chance " + idler.adjustedChance());
        for (int i = 0; i < 8; i++) {
            assertFalse(trend.of("p" + i).get(0).needsAttention());
        }
        assertEquals(9, trend.asked());
    }

    @Test
    void repairOfThePartBeginsAnewAndOfAnotherDoesNot() {
        List<MeasuredLevel> levels =
                new Histories().part("idler", 0, 1, 0.5, 15, -3, -2.5, -3.5, -3).levels();
        SeriesTrend trend =
                one(levels, List.of(Histories.repair(3, "idler"), Histories.repair(5, "fan")));
        assertEquals(4, trend.current().size());
        assertEquals(-3, trend.baseline().orElseThrow().medianDb(), ROUND_OFF_DB);
        assertEquals("new idler", trend.restart().orElseThrow().text());
        assertEquals(
                2, one(levels, List.of(Histories.repair(5, ""))).current().size(), "whole front");
        SeriesTrend after = one(levels, List.of(Histories.repair(7, "idler")));
        assertEquals(0, after.current().size());
        assertTrue(after.newest().isEmpty() && after.chanceOfRise().isEmpty());
    }

    @Test
    void oneBadTouchIsLeftOutOfTheBaselineAndSaid() {
        SeriesTrend trend = alone(0, 0.6, -0.4, 30, 0.2, -0.5, 0.4, 0.1, 0.3);
        assertEquals(1, trend.strays().size());
        assertEquals(30, trend.strays().get(0).levelDb(), ROUND_OFF_DB);
        assertEquals(7, trend.baseline().orElseThrow().visits());
        assertFalse(trend.newest().orElseThrow().standsOut());
        assertFalse(trend.lasting().orElseThrow().rises(), "one strange visit is no lasting rise");
    }

    /** A step that stays is no row of strays: it is said again at every visit. */
    @Test
    void stepIsStillSaidAtTheNextVisit() {
        SeriesTrend trend = alone(0, 0.6, -0.4, 0.2, -0.5, 0.4, 0.1, 12, 12.5);
        assertTrue(trend.newest().orElseThrow().standsOut());
        assertTrue(trend.lasting().orElseThrow().rises());
        assertEquals(2, trend.lasting().orElseThrow().upFor());
    }

    @Test
    void differentMountSpeedOrLoadIsNotMixedInButNamed() {
        Histories h = new Histories().part("idler", 0, 1, 2);
        CaptureLabel hand =
                new CaptureLabel(
                        "c9", "idler", "radial", Mount.HAND, Regime.IDLE, Condition.UNLOADED);
        CaptureLabel magnet =
                new CaptureLabel(
                        "c9", "idler", "radial", Mount.MAGNET, Regime.IDLE, Condition.UNLOADED);
        CaptureLabel loaded =
                new CaptureLabel(
                        "c9",
                        "idler",
                        "radial",
                        Mount.HAND,
                        Regime.IDLE,
                        Condition.UNLOADED.withAircon(true));
        h.add(Histories.level(Histories.visit(3), "idler", hand, 850, 3));
        h.add(Histories.level(Histories.visit(3), "idler", hand, 900, 9));
        h.add(Histories.level(Histories.visit(3), "idler", magnet, 780, 9));
        h.add(Histories.level(Histories.visit(3), "idler", loaded, 780, 9));
        List<LevelSeries> series = LikeWithLike.of(h.levels()).series();
        assertEquals(4, series.size());
        assertEquals(4, series.get(0).points().size(), "850 rpm is within 10 % of 780");
        List<String> differences =
                series.stream()
                        .skip(1)
                        .map(s -> LikeWithLike.difference(series.get(0).place(), s.place()))
                        .sorted()
                        .toList();
        assertEquals(List.of("aircon on", "mount magnet", "near 900 rpm"), differences);
    }

    @Test
    void touchesOfOneVisitAreOnePoint() {
        Histories h = new Histories().part("idler", 0);
        CaptureLabel again =
                new CaptureLabel(
                        "c9", "idler", "radial", Mount.HAND, Regime.IDLE, Condition.UNLOADED);
        h.add(Histories.level(Histories.visit(0), "idler", again, 780, 4));
        LevelSeries.Point p = LikeWithLike.of(h.levels()).series().get(0).newest();
        assertEquals(2, p.touches());
        assertEquals(2, p.levelDb(), ROUND_OFF_DB);
        // Two touches 4 dB apart: standard deviation 2.83, of their mean 2.
        assertEquals(2, p.standardErrorDb(), ROUND_OFF_DB);
    }

    @Test
    void levelsOfNothingAreLeftOutAndSaid() {
        VisitMoment v = Histories.visit(0);
        CaptureLabel l =
                new CaptureLabel("c1", "fan", "", Mount.HAND, Regime.IDLE, Condition.UNLOADED);
        MeasuredLevel nothing = new MeasuredLevel(v, "fan", l, 780, 0, 0, "1");
        MeasuredLevel below = new MeasuredLevel(v, "fan", l, 780, 0, 0.01, "1");
        LikeWithLike sorted = LikeWithLike.of(List.of(nothing, below));
        assertEquals(List.of(nothing), sorted.withoutLevel());
        LevelSeries.Point p = sorted.series().get(0).newest();
        assertEquals(-40, p.levelDb(), ROUND_OFF_DB);
        assertTrue(p.belowError());
    }

    @Test
    void steadyGrowthHasARateAndReachesALevel() {
        double perVisit = 1.5;
        double[] db = new double[8];
        for (int i = 0; i < db.length; i++) {
            db[i] = perVisit * i + 0.3 * ((i * 7) % 3 - 1);
        }
        SeriesTrend trend = alone(db);
        double perYear = perVisit * 365.25 / Histories.DAYS_BETWEEN;
        TheilSen rate = trend.perYear().orElseThrow();
        assertEquals(perYear, rate.slope(), 0.1 * perYear);
        TheilSen.Interval interval = rate.interval().orElseThrow();
        assertTrue(interval.low() <= perYear && perYear <= interval.high());

        TimeToLevel reach = TimeToLevel.of(trend, 15);
        assertEquals(TimeToLevel.Kind.EXPECTED, reach.kind());
        long visitTen =
                Math.abs(
                        reach.likely().orElseThrow().toEpochDay()
                                - Histories.visit(10).date().toLocalDate().toEpochDay());
        assertTrue(visitTen <= 30, "a third of a visit off at most: " + visitTen + " days");
        assertTrue(!reach.earliest().orElseThrow().isAfter(reach.likely().orElseThrow()));
        assertEquals(TimeToLevel.Kind.REACHED, TimeToLevel.of(trend, 5).kind());
    }

    @Test
    void refusesToExtrapolateWhereTheVisitsDoNotBearIt() {
        double[] growing = {0, 1.5, 3, 4.5, 6, 7.5, 9};
        assertReason("further ahead than the visits go back", alone(growing), 60);
        assertReason("do not show that the level rises", alone(3, 1, 2, 0, 3, 1, 2), 20);
        assertReason("a rate needs 5", alone(0, 2, 4, 6), 20);
        SeriesTrend repaired =
                one(
                        new Histories().part("idler", growing).levels(),
                        List.of(Histories.repair(6, "idler")));
        assertReason("no visit since the repair", repaired, 20);
    }

    private static void assertReason(String part, SeriesTrend trend, double levelDb) {
        TimeToLevel reach = TimeToLevel.of(trend, levelDb);
        assertEquals(TimeToLevel.Kind.NOT_BORNE, reach.kind());
        assertTrue(reach.reason().contains(part), reach.reason());
        assertTrue(reach.likely().isEmpty());
    }

    @Test
    void holmKeepsOrderAndNeverGoesDown() {
        double[] adjusted = Holm.adjust(new double[] {0.04, 0.01, 0.03, 0.5});
        double roundOff = 1e-12;
        assertEquals(0.09, adjusted[0], roundOff);
        assertEquals(0.04, adjusted[1], roundOff);
        assertEquals(0.09, adjusted[2], roundOff);
        assertEquals(0.5, adjusted[3], roundOff);
        assertEquals(0, Holm.adjust(new double[0]).length);
    }
}
