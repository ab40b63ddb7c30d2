package tickover.diagnose;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import tickover.drive.DriveModel;
import tickover.drive.LineKind;
import tickover.drive.PartLine;

/**
 * Levels of every part in one capture.
 *
 * <p>A line is looked for around the order that the drive gives it, within its tolerance, and
 * measured where it stands out most. Lines of two parts that the record cannot tell apart are
 * marked on both and counted for neither. Bearing lines are measured by the knocks that come in
 * their rhythm, see {@link KnockMeter}; all others by the acceleration at their own order. A part's
 * level is the root of the summed powers of the lines that are its own.
 */
final class PartLevels {
    /** Part name of what the engine itself makes. */
    private static final String ENGINE = PartLine.ENGINE;

    /** Multiples of the firing order that make up the engine's level. */
    private static final int ENGINE_MULTIPLES = 6;

    /** Multiples of a turn that count for a pulley. */
    private static final int TURN_MULTIPLES = 3;

    private final DriveModel drive;
    private final OrderField field;
    private final LineMeter meter;
    private final KnockMeter knocks;

    PartLevels(DriveModel drive, OrderField field, LineMeter meter, KnockMeter knocks) {
        this.drive = drive;
        this.field = field;
        this.meter = meter;
        this.knocks = knocks;
    }

    /** A line to be measured, and where it was found. */
    private record Sought(String part, String kind, double order) {}

    List<PartLevel> of(String capture) {
        List<Sought> sought = sought();
        Map<String, List<LineLevel>> lines = new LinkedHashMap<>();
        Map<String, double[]> sums = new LinkedHashMap<>();
        for (Sought s : sought) {
            double[] powers =
                    knocks.measures(s.kind)
                            ? knocks.segmentPowers(s.order)
                            : meter.segmentPowers(s.order);
            List<String> shared = sharedWith(s, sought);
            lines.computeIfAbsent(s.part, k -> new ArrayList<>())
                    .add(
                            new LineLevel(
                                    s.kind,
                                    s.order,
                                    LineMeter.levelRmsMps2(powers),
                                    LineMeter.standardErrorMps2(powers),
                                    shared));
            double[] sum = sums.computeIfAbsent(s.part, k -> new double[powers.length]);
            for (int i = 0; shared.isEmpty() && i < powers.length; i++) {
                sum[i] += powers[i];
            }
        }
        List<PartLevel> out = new ArrayList<>();
        lines.forEach(
                (part, list) ->
                        out.add(
                                new PartLevel(
                                        part,
                                        capture,
                                        LineMeter.levelRmsMps2(sums.get(part)),
                                        LineMeter.standardErrorMps2(sums.get(part)),
                                        list)));
        return out;
    }

    private List<Sought> sought() {
        List<Sought> out = new ArrayList<>();
        for (PartLine line : drive.lines()) {
            int multiples = multiples(line);
            for (int k = 1; k <= multiples; k++) {
                double nominal = k * line.order();
                double order = order(line.kind(), nominal, line.uncertaintyRatio());
                if (meter.covers(order)) {
                    String kind = k == 1 ? line.kind() : k + "x" + line.kind();
                    out.add(new Sought(line.part(), kind, order));
                }
            }
        }
        return out;
    }

    private double order(String kind, double nominal, double uncertaintyRatio) {
        if (!(uncertaintyRatio > 0)) {
            return nominal;
        }
        double halfWidth = nominal * uncertaintyRatio;
        return knocks.measures(kind)
                ? knocks.peakOrder(nominal, halfWidth)
                : field.peakOrder(nominal, halfWidth);
    }

    /** How many multiples of a line are looked for. */
    static int multiples(PartLine line) {
        if (line.part().equals(ENGINE)) {
            return line.kind().equals(LineKind.FIRING) ? ENGINE_MULTIPLES : 1;
        }
        return line.kind().equals(LineKind.TURN) || line.kind().equals(LineKind.BELT)
                ? TURN_MULTIPLES
                : 1;
    }

    /** Other parts with a line that this record cannot tell from the given one. */
    private List<String> sharedWith(Sought s, List<Sought> all) {
        TreeSet<String> parts = new TreeSet<>();
        double near = meter.resolutionOrders();
        for (Sought other : all) {
            if (!other.part.equals(s.part) && Math.abs(other.order - s.order) < near) {
                parts.add(other.part);
            }
        }
        double cycle = drive.vehicle().engine().cycleOrder();
        double offCycle = Math.abs(s.order - cycle * Math.rint(s.order / cycle));
        if (!s.part.equals(ENGINE) && offCycle < near) {
            parts.add(ENGINE);
        }
        return List.copyOf(parts);
    }
}
