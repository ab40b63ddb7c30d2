package tickover.diagnose;

import java.util.Objects;

/**
 * A suspect with what the visit says of it.
 *
 * @param suspect who
 * @param clues one number per {@link Clue}
 * @param foundOrders base order at which the rhythm was found, per crank turn
 * @param rhythmDb odds for the rhythm in all captures together, ten times their decimal logarithm;
 *     for a tick how far one slot rises above the others at the own point, dB
 * @param placeDb own point against the strongest other, dB; 0 if there is no own point or no other
 * @param rivalPoint the strongest other point; empty if there is none
 * @param contrastDb load on against load off, dB; 0 if not recorded
 * @param beltOffDb belt on against belt off, dB; 0 if not recorded
 * @param injectorOffDb injector connected against unplugged, dB; 0 if not recorded
 */
record SuspectClues(
        Suspect suspect,
        Clues clues,
        double foundOrders,
        double rhythmDb,
        double placeDb,
        String rivalPoint,
        double contrastDb,
        double beltOffDb,
        double injectorOffDb) {
    SuspectClues {
        Objects.requireNonNull(suspect, "suspect");
        Objects.requireNonNull(rivalPoint, "rivalPoint");
        Objects.requireNonNull(clues, "clues");
    }

    double clue(Clue clue) {
        return clues.get(clue);
    }
}
