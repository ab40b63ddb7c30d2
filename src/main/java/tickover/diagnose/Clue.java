package tickover.diagnose;

/** What the ranking weighs of each suspect. Each is scaled so that 1 is a clear sign. */
enum Clue {
    /** Always 1: how often such a fault is met at all. */
    PRIOR,
    /** How far the rhythm stands out at the suspect's own point, up to clear. */
    RHYTHM,
    /** The same, beyond clear. */
    RHYTHM_STRONG,
    /** How far the rhythm stands out over all points together. */
    RHYTHM_ELSEWHERE,
    /** Sidebands or odd multiples that this fault makes and others do not. */
    MODULATION,
    /** How much stronger it is at its own point than at the strongest other. */
    PLACE,
    /** Whether its own point was not recorded. */
    OUT_OF_REACH,
    /** How much stronger it is with the part's own load on. */
    CONTRAST,
    /** How much weaker it is with the belt off. */
    BELT_OFF,
    /** How much weaker it is with the injector unplugged. */
    INJECTOR_OFF,
    /** How strong it is in itself. */
    LEVEL,
    /** How far it is above what is usual. */
    LEVEL_STRONG,
    /** How deeply it modulates the noise it is found in. */
    DEPTH,
    /** Whether another part, recorded at its own point, explains the same line better. */
    CLAIMED,
    /** How strong it is against the same of the other parts. */
    AMONG_PARTS,
    /** How far it stands from where the measurements of the drive put it. */
    MISFIT,
    /**
     * How near it comes to the likeliest rhythm of all in the same captures, whoever makes that.
     */
    DOMINANT,
    /** Whether lines stand at fractions of the rhythm, so that it belongs to a slower one. */
    FRACTIONS,
    /** What the angles of the ticks say of one injector. */
    SLOTS;

    /**
     * Which way a clue can speak for a group of faults, from how such faults behave: 1 only for, -1
     * only against, 0 either. What a few hundred visits say otherwise is chance.
     */
    int sign(FaultGroup group) {
        boolean tick = group == FaultGroup.INJECTOR_TICK || group == FaultGroup.VALVE_TICK;
        return switch (this) {
            case PRIOR, OUT_OF_REACH -> 0;
            case BELT_OFF -> tick ? -1 : 1;
            case CLAIMED, MISFIT, FRACTIONS -> -1;
            case RHYTHM,
                    RHYTHM_STRONG,
                    RHYTHM_ELSEWHERE,
                    MODULATION,
                    PLACE,
                    CONTRAST,
                    INJECTOR_OFF,
                    LEVEL,
                    LEVEL_STRONG,
                    DEPTH,
                    AMONG_PARTS,
                    DOMINANT,
                    SLOTS ->
                    1;
        };
    }
}
