package tickover.drive;

import java.util.Locale;

/**
 * Refuses sizes that no drive has, before they overflow into orders without meaning. The limits are
 * wide: they catch a slip of the keyboard, not an unusual engine.
 */
final class SizeCheck {
    private static final double SMALLEST_MM = 0.001;
    private static final double LARGEST_MM = 1e6;
    private static final double MOST_PER_TURN = 1e6;

    private SizeCheck() {}

    static void require(Vehicle vehicle) {
        for (Pulley p : vehicle.pulleys()) {
            String pulley = "pulley " + p.name();
            requireSize(pulley, "diameter_mm", p.diameterMm());
            p.position().ifPresent(c -> requireReach(pulley, "x_mm", c.xMm()));
            p.position().ifPresent(c -> requireReach(pulley, "y_mm", c.yMm()));
            for (PassLine line : p.passLines()) {
                requireBetween(
                        pulley + ", line " + line.name(),
                        "per_turn",
                        line.perTurn(),
                        1 / MOST_PER_TURN,
                        MOST_PER_TURN,
                        "per turn");
            }
            for (PulleyBearing b : p.bearings()) {
                b.geometry()
                        .ifPresent(
                                g -> {
                                    requireSize(pulley, "ball_diameter_mm", g.ballDiameterMm());
                                    requireSize(pulley, "pitch_diameter_mm", g.pitchDiameterMm());
                                });
            }
        }
        for (Belt b : vehicle.belts()) {
            b.lengthMm().ifPresent(l -> requireSize("belt " + b.name(), "length_mm", l));
        }
    }

    private static void requireSize(String what, String key, double valueMm) {
        requireBetween(what, key, valueMm, SMALLEST_MM, LARGEST_MM, "mm");
    }

    private static void requireReach(String what, String key, double valueMm) {
        requireBetween(what, key, valueMm, -LARGEST_MM, LARGEST_MM, "mm");
    }

    private static void requireBetween(
            String what, String key, double value, double least, double most, String unit) {
        if (!(value >= least && value <= most)) {
            throw new IllegalArgumentException(
                    String.format(
                            Locale.ROOT,
                            "%s has %s=%s, need %s to %s %s",
                            what,
                            key,
                            value,
                            least,
                            most,
                            unit));
        }
    }
}
