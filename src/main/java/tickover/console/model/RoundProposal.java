package tickover.console.model;

import java.util.ArrayList;
import java.util.List;
import tickover.drive.Condition;
import tickover.drive.Pulley;
import tickover.drive.Role;
import tickover.drive.Vehicle;
import tickover.report.Caution;

/** What a round should touch, and in which order. */
final class RoundProposal {
    private RoundProposal() {}

    /** What to watch for before a touch. */
    static List<String> cautions(Touch next) {
        List<String> cautions = new ArrayList<>();
        for (Caution caution : Caution.beforeRecording(next.condition())) {
            cautions.addAll(caution.sentences());
        }
        cautions.add(Caution.comesFirst());
        return cautions;
    }

    /**
     * Proposes the touches of a vehicle: every part unloaded, then the loads that part suspects.
     */
    static List<Touch> of(Vehicle vehicle) {
        List<Touch> all = new ArrayList<>();
        List<Pulley> parts =
                vehicle.pulleys().stream().filter(p -> p.role() != Role.CRANK).toList();
        parts.forEach(p -> all.add(Touch.open(p.name(), Condition.UNLOADED)));
        all.add(Touch.open("valve-cover", Condition.UNLOADED));
        for (Pulley p : parts) {
            switch (p.role()) {
                case ALTERNATOR ->
                        all.add(Touch.open(p.name(), Condition.UNLOADED.withHeadlights(true)));
                case COMPRESSOR ->
                        all.add(Touch.open(p.name(), Condition.UNLOADED.withAircon(true)));
                case STEERING_PUMP ->
                        all.add(Touch.open(p.name(), Condition.UNLOADED.withSteering(true)));
                case CRANK, WATER_PUMP, FAN, IDLER, TENSIONER, OTHER -> {}
            }
        }
        return all;
    }
}
