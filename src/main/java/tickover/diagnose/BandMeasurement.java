package tickover.diagnose;

/**
 * One frequency band of one capture.
 *
 * @param loHz lower edge, Hz
 * @param hiHz upper edge, Hz
 * @param meanSquare mean of the squared envelope, twice the mean square of the band, (m/s²)²
 * @param field spectrum of the squared envelope over crank orders, what the engine does every cycle
 *     taken out
 * @param cycle the band's course over one working cycle
 */
record BandMeasurement(
        double loHz, double hiHz, double meanSquare, OrderField field, CycleProfile cycle) {}
