package tickover.report;

import java.util.Locale;
import java.util.Optional;
import tickover.diagnose.LastingShift;
import tickover.diagnose.LevelBaseline;
import tickover.diagnose.NewestLevel;
import tickover.diagnose.SeriesTrend;
import tickover.diagnose.TheilSen;
import tickover.diagnose.VehicleTrend;

/** Says what a part's level does over the visits. */
public final class TrendWords {
    private TrendWords() {}

    /**
     * Says where the newest level stands against the earlier ones.
     *
     * @param trend the series
     * @return one sentence
     */
    public static String newest(SeriesTrend trend) {
        int visits = trend.current().size();
        if (visits == 0) {
            return "There was no visit" + since(trend) + "; the next one begins the new baseline.";
        }
        if (trend.changeDb().isEmpty()) {
            return "One visit"
                    + since(trend)
                    + " is where the baseline begins; nothing to compare yet.";
        }
        String change =
                "The newest level is "
                        + signed(trend.changeDb().getAsDouble(), 1)
                        + " dB against the mean of ";
        if (trend.newest().isEmpty()) {
            return change
                    + (visits == 2 ? "the one earlier visit" : "the earlier visits")
                    + since(trend)
                    + "; so few visits, and so few levels of other parts, cannot tell how much of"
                    + " that is scatter.";
        }
        LevelBaseline b = trend.baseline().orElseThrow();
        NewestLevel n = trend.newest().orElseThrow();
        return change
                + (b.visits() == LevelBaseline.MOST_VISITS ? "the first " : "")
                + b.visits()
                + (b.visits() == 1 ? " visit" : " visits")
                + " before it"
                + since(trend)
                + "; "
                + (n.standsOut()
                        ? "that is more than the " + fixed(n.limitDb(), 1) + " dB"
                        : "scatter would explain up to " + fixed(n.limitDb(), 1) + " dB")
                + (n.standsOut() ? " that scatter would explain" : "")
                + " (from visit to visit "
                + fixed(b.scatterDb(), 1)
                + " dB; median of the visits "
                + fixed(b.medianDb(), 1)
                + ", robust scatter "
                + fixed(b.robustScatterDb(), 1)
                + " dB).";
    }

    /**
     * Says whether a shift lasts over the visits.
     *
     * @param l the charts' answer
     * @return one sentence
     */
    public static String lasting(LastingShift l) {
        String figures =
                " (moving average "
                        + signed(l.average(), 2)
                        + " of ±"
                        + fixed(l.averageLimit(), 2)
                        + ", cumulative sums "
                        + fixed(l.up(), 1)
                        + " up and "
                        + fixed(l.down(), 1)
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

    /**
     * Says how fast the level changes.
     *
     * @param trend the series
     * @return one sentence
     */
    public static String rate(SeriesTrend trend) {
        if (trend.perYear().isEmpty()) {
            return "A rate of change needs "
                    + SeriesTrend.FEWEST_FOR_RATE
                    + " visits"
                    + since(trend)
                    + "; there "
                    + (trend.current().size() == 1 ? "is " : "are ")
                    + trend.current().size()
                    + ".";
        }
        String text = "Rate of change: " + rate(trend.perYear().get(), "a year");
        return text
                + trend.perTenThousandKm().map(r -> "; " + rate(r, "per 10,000 km")).orElse("")
                + ".";
    }

    private static String rate(TheilSen rate, String per) {
        return signed(rate.slope(), 1)
                + " dB "
                + per
                + rate.interval()
                        .map(
                                i ->
                                        " (95 %: "
                                                + signed(i.low(), 1)
                                                + " to "
                                                + signed(i.high(), 1)
                                                + ")")
                        .orElse(" (too few visits for an interval)");
    }

    /**
     * Says whether the series calls for a look at the part.
     *
     * @param judged the series among those of the vehicle
     * @param vehicle the vehicle
     * @return one sentence; empty if there are too few visits to ask
     */
    public static Optional<String> verdict(VehicleTrend.Judged judged, VehicleTrend vehicle) {
        // A vehicle whose last visit added to no series is asked nothing.
        if (judged.trend().chanceOfRise().isEmpty() || vehicle.asked() == 0) {
            return Optional.empty();
        }
        double percent = 100 * judged.adjustedChance();
        String chance = percent < 0.1 ? "less than 0.1 %" : fixed(percent, 1) + " %";
        if (percent > 50) {
            return Optional.of(
                    "No call for a look from this: most visits of an unchanged vehicle show as much"
                            + " rise somewhere in their "
                            + vehicle.asked()
                            + " series.");
        }
        return Optional.of(
                judged.needsAttention()
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

    private static String since(SeriesTrend trend) {
        return trend.restart().map(m -> " since the repair of " + m.at().toLocalDate()).orElse("");
    }

    private static String fixed(double value, int decimals) {
        return String.format(Locale.ROOT, "%." + decimals + "f", value);
    }

    private static String signed(double value, int decimals) {
        return String.format(Locale.ROOT, "%+." + decimals + "f", value);
    }
}
