package tickover.report;

import tickover.diagnose.PartChange;
import tickover.diagnose.RepairProof;
import tickover.drive.PartWords;

/** Says in a mechanic's words whether a repair is proven. */
public final class RepairWords {
    private RepairWords() {}

    /** Chances below this are told as below it. */
    private static final double LEAST_LUCK = 1e-4;

    /**
     * Says how likely an unchanged part shows as much by luck.
     *
     * @param change the change
     * @return a few words
     */
    public static String luck(PartChange change) {
        if (!change.coversTouches()) {
            return "luck cannot be told: too few pairs";
        }
        return change.luckRatio() < LEAST_LUCK
                ? "luck: less than 1 in 10000"
                : change.luckRatio() > 0.5
                        ? "luck alone does as much"
                        : "luck: 1 in " + Math.round(1 / change.luckRatio());
    }

    /**
     * Sums a proof up.
     *
     * @param proof the proof
     * @return one sentence
     */
    public static String headline(RepairProof proof) {
        return switch (proof.state()) {
            case GONE -> "Repair of " + PartWords.the(proof.part()) + " proven: its noise is gone.";
            case QUIETER ->
                    "Repair of "
                            + PartWords.the(proof.part())
                            + " helped, but is not proven: look again.";
            case UNPROVEN -> "Repair of " + PartWords.the(proof.part()) + " NOT proven.";
            case LOUDER -> "Repair of " + PartWords.the(proof.part()) + " failed: it is louder.";
            case NOT_COMPARABLE ->
                    "Repair of " + PartWords.the(proof.part()) + " cannot be judged.";
        };
    }
}
