package tickover.sim;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tickover.drive.Belt;
import tickover.drive.BeltRoute;
import tickover.drive.DriveBelt;
import tickover.drive.DriveModel;
import tickover.drive.Pulley;
import tickover.drive.Role;
import tickover.drive.Vehicle;

class DriveDrawTest {
    private static final int DRIVES = 120;

    /**
     * The drive package lays belts by its own geometry, and refuses those that cross themselves or
     * go round twice: it must find every drawn belt, as long as it is here.
     */
    @Test
    void drawnBeltsExistAndAreAsLongAsTheDrivePackageSays() {
        for (int seed = 0; seed < DRIVES; seed++) {
            TrueDrive drive = DriveDraw.draw(new Draw(seed));
            for (DriveBelt belt : DriveModel.of(exact(drive)).belts()) {
                String at = "seed " + seed + " belt " + belt.name();
                BeltRoute route = belt.route().orElse(null);
                assertTrue(route != null, at + " has no route");
                double drawnMm =
                        drive.belts().stream()
                                .filter(b -> b.name().equals(belt.name()))
                                .findFirst()
                                .orElseThrow()
                                .run()
                                .lengthMm();
                assertEquals(drawnMm, route.lengthMm(), 1e-6, at);
            }
        }
    }

    @Test
    void drivesVaryAsWorkshopsSeeThem() {
        int four = 0;
        int twoBelts = 0;
        int equalGuides = 0;
        for (int seed = 0; seed < DRIVES; seed++) {
            TrueDrive drive = DriveDraw.draw(new Draw(seed));
            int pulleys = drive.pulleys().size();
            assertTrue(pulleys >= 4 && pulleys <= 8, "pulleys " + pulleys);
            four += drive.engine().cylinders() == 4 ? 1 : 0;
            twoBelts += drive.belts().size() == 2 ? 1 : 0;
            long sizes =
                    drive.pulleys().stream()
                            .filter(p -> p.role() == Role.IDLER || p.role() == Role.TENSIONER)
                            .mapToDouble(TruePulley::diameterMm)
                            .distinct()
                            .count();
            long guides =
                    drive.pulleys().stream()
                            .filter(p -> p.role() == Role.IDLER || p.role() == Role.TENSIONER)
                            .count();
            equalGuides += sizes < guides ? 1 : 0;
        }
        assertTrue(four > DRIVES / 2, "four cylinders in " + four);
        assertTrue(twoBelts >= DRIVES / 20, "two belts in " + twoBelts);
        assertTrue(equalGuides >= DRIVES / 8, "guide pulleys of one size in " + equalGuides);
    }

    private static Vehicle exact(TrueDrive drive) {
        List<Pulley> pulleys = new ArrayList<>();
        for (TruePulley p : drive.pulleys()) {
            pulleys.add(
                    Pulley.named(p.name(), p.role(), p.diameterMm())
                            .face(p.face())
                            .at(p.position())
                            .build());
        }
        List<Belt> belts = drive.belts().stream().map(b -> Belt.of(b.name(), b.path())).toList();
        return new Vehicle("ML-01", "", drive.engine(), belts, pulleys);
    }
}
