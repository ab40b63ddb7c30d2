package tickover.order;

import java.util.List;
import java.util.Locale;

/** The angle at each pulse, with torsional ripple taken out of it where that is asked for. */
final class RippleOut {
    final double[] turns;
    final double sigmaTurns;

    /**
     * Takes ripple out, or leaves it, and says so.
     *
     * @param train the pulses in their places
     * @param ripple what is asked for
     * @param turnsPerCrankTurn of the marked part
     * @param cycleTurns crank turns of a working cycle
     * @param notes gets a note if anything but the usual was asked for
     */
    RippleOut(
            PulseTrain train,
            Ripple ripple,
            double turnsPerCrankTurn,
            int cycleTurns,
            List<AngleNote> notes) {
        MarkSpacing base = train.spacing().overCycle(cycleTurns);
        MarkSpacing spacing = base;
        if (ripple == Ripple.TAKEN_OUT && turnsPerCrankTurn == 1) {
            spacing = base.withRipple(train.timesS(), train.markOf());
        }
        int[] markOf = train.markOf();
        turns = new double[markOf.length];
        if (spacing == base) {
            System.arraycopy(train.turns(), 0, turns, 0, turns.length);
        } else {
            for (int i = 0; i < turns.length; i++) {
                turns[i] = cycleTurns * spacing.turnsAt(markOf[i]);
            }
        }
        sigmaTurns = Math.max(train.spacing().sigmaTurns(), cycleTurns * spacing.sigmaTurns());
        if (ripple != Ripple.AS_SEEN) {
            double swingDegrees = 360 * cycleTurns * spacing.farthestFrom(base);
            notes.add(
                    new AngleNote(
                            AngleNote.Kind.RIPPLE,
                            0,
                            text(train, ripple, turnsPerCrankTurn, swingDegrees)));
        }
    }

    private static String text(
            PulseTrain train, Ripple ripple, double turnsPerCrankTurn, double swingDegrees) {
        int marks = train.spacing().marks();
        String unseen =
                marks == 1
                        ? "with one mark, ripple within a turn is not seen."
                        : String.format(
                                Locale.ROOT,
                                "with %d marks, nothing is known of ripple from order %.1f on.",
                                marks,
                                marks / 2.0);
        if (ripple == Ripple.LEFT_IN) {
            return train.spacing().isEven()
                    ? "Torsional ripple was left in as far as the marks show it; " + unseen
                    : "The marks are not even, so ripple that repeats with every turn passes for"
                            + " their places; "
                            + unseen;
        }
        if (turnsPerCrankTurn != 1) {
            return "Torsional ripple was not taken out, for the marks are not on the crank and do"
                    + " not repeat with its cycle.";
        }
        return swingDegrees > 0
                ? String.format(
                        Locale.ROOT,
                        "Torsional ripple of up to %.2f degrees at the marks was taken out; %s",
                        swingDegrees,
                        unseen)
                : "No torsional ripple stands out of the jitter; " + unseen;
    }
}
