package tickover.order;

/**
 * What to do with torsional ripple: the shaft running ahead and behind within every working cycle.
 *
 * <p>Pulses show it at the marks only. With N marks per turn nothing is known of orders of half N
 * and more, with one mark only that one turn of a cycle differs from the next. Ripple that repeats
 * with every turn looks exactly like marks that are not even.
 */
public enum Ripple {
    /** Unknown marks: what repeats with every turn is put down to them, half orders are left in. */
    AS_SEEN,
    /** Marks that seem even are exactly so: the angle is that of the shaft, ripple and all. */
    LEFT_IN,
    /** The angle of a shaft without ripple: what repeats with every cycle is taken out. */
    TAKEN_OUT
}
