package tickover.drive;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class BearingTableTest {
    @ParameterizedTest
    @ValueSource(
            strings = {
                "6203",
                "6203-2RS",
                "6203DDU",
                "6203/C3",
                "6203 ZZ",
                " 6203-2Z/C3 ",
                "6203.2RSR",
                "6203LLU",
                "6203-2rs"
            })
    void sealsClearanceAndGreaseDoNotMatter(String designation) {
        assertEquals(
                List.of(new BearingGeometry(8, 6.75, 28.5, 0)), BearingTable.typical(designation));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "2RS", "62030", "NU203", "16203", "6203203", "62/22", "idler"})
    void anotherBearingIsNotTakenForAListedOne(String designation) {
        assertTrue(BearingTable.typical(designation).isEmpty());
    }

    @Test
    void everyRowFitsBetweenBoreAndOutside() {
        // Outside dimensions by ISO 15, from memory and a public table: bore and outside, mm.
        double[][] boreAndOutsideMm = {
            {608, 8, 22}, {6200, 10, 30}, {6201, 12, 32}, {6202, 15, 35}, {6203, 17, 40},
            {6204, 20, 47}, {6205, 25, 52}, {6301, 12, 37}, {6302, 15, 42}, {6303, 17, 47},
            {6304, 20, 52},
        };
        assertEquals(boreAndOutsideMm.length, BearingTable.designations().size());
        for (double[] row : boreAndOutsideMm) {
            String designation = Integer.toString((int) row[0]);
            assertFalse(BearingTable.typical(designation).isEmpty(), designation);
            for (BearingGeometry g : BearingTable.typical(designation)) {
                assertTrue(g.pitchDiameterMm() - g.ballDiameterMm() > row[1], designation);
                assertTrue(g.pitchDiameterMm() + g.ballDiameterMm() < row[2], designation);
                double chordMm = g.pitchDiameterMm() * Math.sin(Math.PI / g.balls());
                assertTrue(chordMm > g.ballDiameterMm(), designation + ": balls overlap");
            }
        }
    }

    @Test
    void makersThatDifferInBallsAreBothListed() {
        assertEquals(
                List.of(8, 7),
                BearingTable.typical("6200").stream().map(BearingGeometry::balls).toList());
    }
}
