package tickover.diagnose;

/**
 * One line of a pattern, as found.
 *
 * @param harmonic which harmonic it is or belongs to, &gt;= 1
 * @param sideband 0 for the harmonic itself, else which sideband, negative below it
 * @param order where it stands, per turn of the reference
 * @param strengthDb its power over the background around it, dB
 * @param modulationRatio by which share of its mean the squared envelope swings at this order
 */
public record CombLine(
        int harmonic, int sideband, double order, double strengthDb, double modulationRatio) {}
