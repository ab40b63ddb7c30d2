package tickover.sim;

import java.util.Objects;
import tickover.drive.Condition;
import tickover.drive.Role;

/**
 * How a part's strength answers the loads that were switched on: {@code base + sensitivity * load},
 * where the load is 0 with everything off and 1 with the part's own load on. Guide pulleys and
 * pumps feel the others' loads through belt tension.
 *
 * @param role what the part drives
 * @param baseRatio strength without load
 * @param sensitivityRatio what full load adds
 */
record LoadGain(Role role, double baseRatio, double sensitivityRatio) {
    LoadGain {
        Objects.requireNonNull(role, "role");
        if (!(baseRatio >= 0 && sensitivityRatio >= 0)) {
            throw new IllegalArgumentException(
                    "baseRatio="
                            + baseRatio
                            + ", sensitivityRatio="
                            + sensitivityRatio
                            + ", need >= 0");
        }
    }

    /** Strength that no load changes. */
    static LoadGain constant(Role role) {
        return new LoadGain(role, 1, 0);
    }

    double of(Condition c) {
        return baseRatio + sensitivityRatio * load(c);
    }

    private double load(Condition c) {
        double alternator = (c.headlights() ? 1 : 0) + (c.aircon() ? 0.2 : 0);
        double compressor = c.aircon() ? 1 : 0;
        double steering = c.steering() ? 1 : 0;
        double tension = 0.25 * alternator + 0.3 * compressor + 0.3 * steering;
        return switch (role) {
            case ALTERNATOR -> alternator;
            case COMPRESSOR -> compressor;
            case STEERING_PUMP -> steering;
            case IDLER, TENSIONER, WATER_PUMP, FAN, OTHER, CRANK -> tension;
        };
    }
}
