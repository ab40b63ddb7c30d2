package tickover.session;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import tickover.align.CaptureSignal;
import tickover.drive.DriveModel;
import tickover.drive.DrivePart;
import tickover.drive.PartLine;
import tickover.drive.Role;
import tickover.drive.Vehicle;
import tickover.dsp.Statistics;
import tickover.order.AngularRecord;
import tickover.order.AngularResampler;
import tickover.order.ShaftAngle;
import tickover.order.SynchronousAverage;
import tickover.order.SynchronousAverages;
import tickover.order.TurnSearch;

/**
 * What repeats with the turns of chosen pulleys in one capture, each at the speed that the capture
 * itself shows, and what remains.
 *
 * <p>The engine's working cycle is always averaged too. A pulley's speed is looked for around what
 * the diameters say, in what the engine leaves.
 */
public final class PartAverages {
    /**
     * A part with its average.
     *
     * @param name pulley, or {@code engine} for the working cycle
     * @param bySizeTurns turns per crank turn as the diameters say; the average has those heard
     * @param average over the part's own turns
     */
    public record Part(String name, double bySizeTurns, SynchronousAverage average) {}

    /**
     * A part that nothing is heard of at once per turn.
     *
     * @param name pulley
     * @param fromTurns lowest turns per crank turn that were looked at
     * @param toTurns highest
     */
    public record Unheard(String name, double fromTurns, double toTurns) {}

    private static final int SEARCH_STEPS_PER_TURN = 64;

    private final List<Part> parts;
    private final List<Unheard> unheard;
    private final double recordRms;
    private final double residualRms;

    private PartAverages(
            List<Part> parts, List<Unheard> unheard, double recordRms, double residualRms) {
        this.parts = List.copyOf(parts);
        this.unheard = List.copyOf(unheard);
        this.recordRms = recordRms;
        this.residualRms = residualRms;
    }

    /**
     * Averages a capture.
     *
     * @param vehicle the visit's vehicle
     * @param tracked one of its captures
     * @param channel 0-based
     * @param highestOrders highest order wanted, per crank turn, at most {@link
     *     TrackedCapture#highestOrders}
     * @param names pulleys
     * @return the averages
     * @throws IllegalArgumentException if a pulley is not the vehicle's, or two cannot be told
     *     apart
     */
    public static PartAverages of(
            Vehicle vehicle,
            TrackedCapture tracked,
            int channel,
            double highestOrders,
            List<String> names) {
        Objects.requireNonNull(vehicle, "vehicle");
        Objects.requireNonNull(names, "names");
        DriveModel drive = DriveModel.of(vehicle);
        CaptureSignal signal = tracked.signal();
        ShaftAngle angle = tracked.angle();
        double[] x = signal.accelMps2(channel);
        double rateHz = signal.sampleRateHz();
        double cycle = vehicle.engine().cycleOrder();
        double[] left = SynchronousAverages.of(x, rateHz, angle, highestOrders, cycle).residual();
        AngularRecord record =
                AngularResampler.resample(left, rateHz, angle, SEARCH_STEPS_PER_TURN);
        List<String> heard = new ArrayList<>(List.of(PartLine.ENGINE));
        List<Double> bySize = new ArrayList<>(List.of(cycle));
        List<Double> turns = new ArrayList<>(List.of(cycle));
        List<Unheard> unheard = new ArrayList<>();
        for (String name : names) {
            DrivePart part = part(drive, name);
            boolean isCrank = part.role() == Role.CRANK;
            PartLine turn = part.lines().get(0);
            OptionalDouble found =
                    isCrank
                            ? OptionalDouble.of(1)
                            : TurnSearch.find(record, turn.lowestOrders(), turn.highestOrders());
            if (found.isEmpty()) {
                unheard.add(new Unheard(name, turn.lowestOrders(), turn.highestOrders()));
                continue;
            }
            // What the working cycle shares with the crank is the crank's where it is asked for.
            int place = isCrank ? 0 : heard.size();
            requireApart(heard, turns, name, found.getAsDouble(), record.lengthTurns());
            heard.add(place, name);
            bySize.add(place, turn.order());
            turns.add(place, found.getAsDouble());
        }
        SynchronousAverages averages =
                SynchronousAverages.of(
                        x,
                        rateHz,
                        angle,
                        highestOrders,
                        turns.stream().mapToDouble(t -> t).toArray());
        List<Part> parts = new ArrayList<>();
        for (int p = 0; p < heard.size(); p++) {
            parts.add(new Part(heard.get(p), bySize.get(p), averages.averages().get(p)));
        }
        return new PartAverages(
                parts,
                unheard,
                Math.sqrt(Statistics.variance(x)),
                Math.sqrt(Statistics.variance(averages.residual())));
    }

    private static DrivePart part(DriveModel drive, String name) {
        return drive.part(name)
                .orElseThrow(
                        () ->
                                new IllegalArgumentException(
                                        "the vehicle has no pulley '"
                                                + name
                                                + "'; it has "
                                                + drive.parts().stream()
                                                        .map(DrivePart::name)
                                                        .collect(Collectors.joining(", "))));
    }

    private static void requireApart(
            List<String> names, List<Double> turns, String name, double own, double lengthTurns) {
        for (int i = 0; i < names.size(); i++) {
            if (!(Math.abs(turns.get(i) - own) * lengthTurns >= 1)) {
                throw new IllegalArgumentException(
                        names.get(i)
                                + " and "
                                + name
                                + " turn too alike for this capture to tell them apart; ask for"
                                + " one of them");
            }
        }
    }

    /**
     * Returns the parts that were averaged.
     *
     * @return the engine's working cycle and every pulley heard, in the sequence in which they
     *     claim what they share
     */
    public List<Part> parts() {
        return parts;
    }

    /**
     * Returns the pulleys that were not heard.
     *
     * @return perhaps none
     */
    public List<Unheard> unheard() {
        return unheard;
    }

    /**
     * Returns the level of the whole capture about its mean.
     *
     * @return rms, m/s²
     */
    public double recordRms() {
        return recordRms;
    }

    /**
     * Returns the level of what remains without all averages, about its mean.
     *
     * @return rms, m/s²
     */
    public double residualRms() {
        return residualRms;
    }
}
