package tickover.diagnose;

/** What the ranking weighs of each suspect. Each is scaled so that 1 is a clear sign. */
enum Clue {
    /** Always 1: how often such a fault is met at all. */
    PRIOR,
    /**
     * What all captures together say for its rhythm, all base orders that it could have weighed.
     */
    COMB,
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
    /** How strong it is in itself, for what is no rhythm; for a shake, its movement. */
    LEVEL,
    /** For a shake once per turn, its acceleration. */
    SHAKE,
    /** How deeply it modulates the noise it is found in. */
    DEPTH,
    /** How strong it is against the same of the other parts. */
    AMONG_PARTS,
    /** How far it stands from where the measurements of the drive put it. */
    MISFIT,
    /** What the angles of the ticks say of one injector, or of the valves. */
    SLOTS,
    /** How far one cylinder's ticks stand out at points that are alike far from all cylinders. */
    ODD,
    /** The same at points on the head, one of which is nearest to each cylinder. */
    ODD_NEAR,
    /** How much further one cylinder stands out in dull bands than in sharp ones. */
    DULL;

    /**
     * Which way a clue can speak for a group of faults, from how such faults behave: 1 only for, -1
     * only against, 0 either. What a few hundred visits say otherwise is chance.
     */
    int sign(FaultGroup group) {
        return switch (this) {
            case PRIOR -> 0;
            case DULL ->
                    switch (group) {
                        case ENGINE_KNOCK -> 1;
                        case INJECTOR_TICK -> -1;
                        default -> 0;
                    };
            // That somebody recorded at the block says what they suspected, not what it is.
            case OUT_OF_REACH ->
                    switch (group) {
                        case ENGINE_BEARING, ENGINE_KNOCK -> 1;
                        default -> 0;
                    };
            case BELT_OFF -> group.isOutsideBeltDrive() ? -1 : 1;
            case MISFIT -> -1;
            case COMB,
                    SHAKE,
                    MODULATION,
                    PLACE,
                    CONTRAST,
                    INJECTOR_OFF,
                    LEVEL,
                    DEPTH,
                    AMONG_PARTS,
                    SLOTS,
                    ODD,
                    ODD_NEAR ->
                    1;
        };
    }
}
