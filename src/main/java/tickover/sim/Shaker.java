package tickover.sim;

/** One thing that shakes a place. Implementations hold parameters only; one run, one call. */
interface Shaker {
    /**
     * Adds what it does during a run.
     *
     * @param run the capture
     * @param part angle of the part it belongs to; the crank's own for the engine
     * @param draw draws of this source in this run
     * @param shake what to add to
     */
    void shake(Run run, PartMotion part, Draw draw, Shake shake);
}
