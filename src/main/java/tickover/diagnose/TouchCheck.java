package tickover.diagnose;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tickover.dsp.Statistics;

/**
 * Finds touches that are far from the other touches of the same point.
 *
 * <p>Touches are captures of one visit that agree in everything but their id. Where there are three
 * or more, each is held against the median of all, by its overall level and by its treble against
 * its bass (octave bands from 1200 Hz on against those below). With two nobody can tell which is
 * right.
 */
public final class TouchCheck {
    private static final int FEWEST_TOUCHES = 3;

    /**
     * Three times the usual scatter of a probe pressed on by hand, which is 1 to 3 dB below 1 kHz;
     * that figure is from memory and common practice.
     */
    private static final double ODD_DB = 9;

    /** Where treble begins: the first band beyond what a hand carries for sure, Hz. */
    private static final double TREBLE_HZ = 1200;

    private TouchCheck() {}

    /**
     * Holds the touches of a visit against each other.
     *
     * @param captures all measured captures of one visit
     * @return one note per odd touch
     */
    public static List<QualityNote> notes(List<CaptureMeasurement> captures) {
        Map<CaptureLabel, List<CaptureMeasurement>> points = new LinkedHashMap<>();
        for (CaptureMeasurement m : captures) {
            CaptureLabel l = m.label();
            CaptureLabel shared =
                    new CaptureLabel("", l.point(), l.axis(), l.mount(), l.regime(), l.condition());
            if (!l.point().isEmpty()) {
                points.computeIfAbsent(shared, k -> new ArrayList<>()).add(m);
            }
        }
        List<QualityNote> out = new ArrayList<>();
        for (List<CaptureMeasurement> touches : points.values()) {
            if (touches.size() >= FEWEST_TOUCHES) {
                out.addAll(odd(touches));
            }
        }
        return out;
    }

    private static List<QualityNote> odd(List<CaptureMeasurement> touches) {
        double[] level = touches.stream().mapToDouble(TouchCheck::levelDb).toArray();
        double[] ratio = touches.stream().mapToDouble(TouchCheck::trebleOverBassDb).toArray();
        List<QualityNote> out = new ArrayList<>();
        for (int i = 0; i < level.length; i++) {
            double louder = level[i] - Statistics.median(level);
            double brighter = ratio[i] - Statistics.median(ratio);
            String what =
                    Math.abs(louder) > ODD_DB
                            ? QualityWords.say(
                                    "%.0f dB %s",
                                    Math.abs(louder), louder > 0 ? "louder" : "quieter")
                            : Math.abs(brighter) > ODD_DB
                                    ? QualityWords.say(
                                            "%.0f dB %s in treble against bass",
                                            Math.abs(brighter),
                                            brighter > 0 ? "stronger" : "weaker")
                                    : "";
            if (!what.isEmpty()) {
                String id = touches.get(i).label().id();
                out.add(
                        QualityNote.ofWhole(
                                id,
                                QualityProblem.ODD_TOUCH,
                                QualityWords.say(
                                        "This touch is %s than the usual of the %d touches here:"
                                                + " the probe sat differently, or on another part.",
                                        what, level.length)));
            }
        }
        return out;
    }

    private static double levelDb(CaptureMeasurement m) {
        return 20 * Math.log10(m.summary().overallRmsMps2() + Double.MIN_NORMAL);
    }

    private static double trebleOverBassDb(CaptureMeasurement m) {
        double treble = 0;
        double bass = 0;
        for (BandMeasurement band : m.bands()) {
            if (band.loHz() >= TREBLE_HZ) {
                treble += band.meanSquare();
            } else {
                bass += band.meanSquare();
            }
        }
        // Sampled too slowly for treble, there is nothing to compare.
        return treble > 0 && bass > 0 ? 10 * Math.log10(treble / bass) : 0;
    }
}
