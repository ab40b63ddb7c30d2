package tickover.diagnose;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Where the rhythm of every base order comes from: the odds for each place against all others, by
 * how strong it is at the points of a visit.
 *
 * <p>A part of unknown internals may have any of a wide range of rhythms, and a spectrum holds many
 * that are somebody else's; which of them is this part's is a question of place as much as of
 * lines. Cost: once per visit, a few operations per capture, band and base order.
 */
final class LinePlaces {
    private final Map<String, double[]> nats = new HashMap<>();

    LinePlaces(List<CaptureMeasurement> captures, PlaceOdds places) {
        Map<String, List<CaptureMeasurement>> byPoint = new LinkedHashMap<>();
        for (CaptureMeasurement c : captures) {
            byPoint.computeIfAbsent(c.label().point(), k -> new ArrayList<>()).add(c);
        }
        List<String> points = List.copyOf(byPoint.keySet());
        List<double[]> levelsDb = new ArrayList<>();
        List<double[]> sums = new ArrayList<>();
        for (String point : points) {
            List<CaptureMeasurement> here = byPoint.get(point);
            double[] levelDb = new double[RhythmScan.COUNT];
            double[] sum = new double[RhythmScan.COUNT];
            for (CaptureMeasurement c : here) {
                double[] one = Quantities.envelopesDb(c, ClueFinder.LINE_HARMONICS);
                for (int i = 0; i < levelDb.length; i++) {
                    levelDb[i] += one[i] / here.size();
                    sum[i] += c.lineScan().around(i);
                }
            }
            levelsDb.add(levelDb);
            sums.add(sum);
        }
        for (String place : places.places()) {
            nats.put(place, new double[RhythmScan.COUNT]);
        }
        if (points.size() < 2) {
            return;
        }
        PlaceOdds.Points at = places.at(points);
        double[] levelDb = new double[points.size()];
        boolean[] heard = new boolean[points.size()];
        for (int i = 0; i < RhythmScan.COUNT; i++) {
            for (int p = 0; p < levelDb.length; p++) {
                levelDb[p] = levelsDb.get(p)[i];
                heard[p] = sums.get(p)[i] > ClueFinder.HEARD_NATS;
            }
            double[] odds = at.nats(levelDb, heard);
            int k = 0;
            for (String place : places.places()) {
                nats.get(place)[i] = odds[k++];
            }
        }
    }

    /**
     * Odds for a place at every base order of {@link RhythmScan}, nats; 0 for a place that is no
     * part's, and with fewer than two points.
     */
    double[] nats(String place) {
        return nats.computeIfAbsent(place, k -> new double[RhythmScan.COUNT]);
    }
}
