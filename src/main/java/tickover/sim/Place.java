package tickover.sim;

import java.util.List;
import java.util.Objects;
import tickover.drive.Condition;

/**
 * A place that shakes: where it is, its own resonances, and what shakes it.
 *
 * @param name a pulley's name, {@code injector-N}, {@code valve-cover}, {@code engine}, {@code
 *     cooling-fan}
 * @param site where it is
 * @param modes its own resonances
 * @param drive how it turns
 * @param shakers what shakes it
 */
record Place(String name, Site site, List<Mode> modes, PlaceDrive drive, List<Shaker> shakers) {
    Place {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(site, "site");
        Objects.requireNonNull(drive, "drive");
        modes = List.copyOf(modes);
        shakers = List.copyOf(shakers);
    }

    /**
     * How a place turns.
     *
     * @param turnsPerCrankTurn without slip
     * @param slipRatio slip without load
     * @param slip how slip answers loads; its base is 1
     * @param rippleShareRatio share of the crank's ripple that arrives
     * @param beltDriven whether it stands still with the belt off
     */
    record PlaceDrive(
            double turnsPerCrankTurn,
            double slipRatio,
            LoadGain slip,
            double rippleShareRatio,
            boolean beltDriven) {
        double ratio(Condition condition) {
            return turnsPerCrankTurn * (1 - slipRatio * slip.of(condition));
        }
    }

    boolean stands(Condition condition) {
        return drive.beltDriven() && !condition.beltOn();
    }

    /** How it turns during a run; where a belt-driven part stands at the start is chance. */
    PartMotion motion(Run run) {
        return new PartMotion(
                run.motion(),
                drive.ratio(run.condition()),
                drive.rippleShareRatio(),
                drive.beltDriven() ? run.draw("angle:" + name).between(0, 1) : 0);
    }

    /** The place's acceleration during a run. */
    double[] render(Run run) {
        Draw draw = run.draw(name);
        PartMotion part = motion(run);
        Shake shake = new Shake(run.count());
        for (int i = 0; i < shakers.size(); i++) {
            shakers.get(i).shake(run, part, draw.branch("shaker", i), shake);
        }
        ModeBank.ringing(modes, run.sampleRateHz())
                .addAll(shake.impactsMps2, shake.directMps2, run.count());
        return shake.directMps2;
    }
}
