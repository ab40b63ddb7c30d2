package tickover.report;

import tickover.diagnose.RepairProof;

/** Says in a mechanic's words whether a repair is proven. */
public final class RepairWords {
    private RepairWords() {}

    /**
     * Sums a proof up.
     *
     * @param proof the proof
     * @return one sentence
     */
    public static String headline(RepairProof proof) {
        return switch (proof.state()) {
            case GONE -> "Repair of the " + proof.part() + " proven: its noise is gone.";
            case QUIETER ->
                    "Repair of the " + proof.part() + " helped, but is not proven: look again.";
            case UNPROVEN -> "Repair of the " + proof.part() + " NOT proven.";
            case LOUDER -> "Repair of the " + proof.part() + " failed: it is louder.";
            case NOT_COMPARABLE -> "Repair of the " + proof.part() + " cannot be judged.";
        };
    }
}
