package tickover.diagnose;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import tickover.drive.DriveModel;
import tickover.drive.PartLine;

/**
 * One line that is followed live.
 *
 * @param part a pulley's name, {@code belt:NAME} or {@code engine}
 * @param kind as {@link LineLevel#kind}
 * @param nominalOrders where the drive puts it, per crank turn
 * @param uncertaintyRatio how far from there it may stand, as a share
 * @param byKnocks whether it is measured by the rhythm of knocks instead of by the motion at its
 *     order
 */
public record LivePartLine(
        String part, String kind, double nominalOrders, double uncertaintyRatio, boolean byKnocks) {
    public LivePartLine {
        Objects.requireNonNull(part, "part");
        Objects.requireNonNull(kind, "kind");
        if (!(nominalOrders > 0 && uncertaintyRatio >= 0)) {
            throw new IllegalArgumentException(
                    "nominalOrders="
                            + nominalOrders
                            + ", uncertaintyRatio="
                            + uncertaintyRatio
                            + ", need > 0 and >= 0");
        }
    }

    /** The lines that a capture's part levels rest on, as far as they can be seen. */
    static List<LivePartLine> of(DriveModel drive, boolean knocks, double topOrders) {
        List<LivePartLine> out = new ArrayList<>();
        for (PartLine line : drive.lines()) {
            int multiples = PartLevels.multiples(line);
            for (int k = 1; k <= multiples; k++) {
                double order = k * line.order();
                if (order * (1 + line.uncertaintyRatio()) < topOrders) {
                    out.add(
                            new LivePartLine(
                                    line.part(),
                                    k == 1 ? line.kind() : k + "x" + line.kind(),
                                    order,
                                    line.uncertaintyRatio(),
                                    knocks && KnockMeter.isKnock(line.kind())));
                }
            }
        }
        return List.copyOf(out);
    }
}
