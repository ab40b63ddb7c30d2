package tickover.console.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tickover.drive.DriveModel;
import tickover.drive.Face;
import tickover.drive.Ring;
import tickover.drive.Role;
import tickover.drive.Vehicle;
import tickover.sim.SimulatedVan;
import tickover.store.VisitFolder;

class DriveDraftTest {
    private final DriveDraft draft = new DriveDraft();

    private PulleyRow row(String name) {
        return draft.state().get().pulleys().stream()
                .filter(r -> r.name().equals(name))
                .findFirst()
                .orElseThrow();
    }

    private List<String> complaints() {
        return draft.outcome().get().complaints();
    }

    @Test
    void knownVehicleComesBackAsItWas() {
        Vehicle vehicle = new SimulatedVan(false).vehicle();
        draft.open(vehicle);
        assertEquals(List.of(), complaints());
        Vehicle again = draft.outcome().get().model().orElseThrow().vehicle();
        assertEquals(VisitFolder.vehicleText(vehicle), VisitFolder.vehicleText(again));
        assertFalse(draft.changed().get());
    }

    @Test
    void driveOfTwoPulleysIsEnteredByClicks() {
        draft.name("ML-12");
        draft.change("crank", row("crank").wide("154"));
        String second = draft.add(200, 120);
        draft.change(second, row(second).named("alternator"));
        draft.change("alternator", row("alternator").as(Role.ALTERNATOR).wide("60"));
        draft.change("alternator", row("alternator").on(Face.GROOVED));
        draft.route(0, "alternator");
        assertEquals("crank, alternator", draft.state().get().belts().get(0).path());
        assertEquals(List.of(), complaints());
        DriveModel model = draft.outcome().get().model().orElseThrow();
        double ratio = 154.0 / 60;
        double roundOff = 1e-12;
        assertEquals(ratio, model.part("alternator").orElseThrow().turnsPerCrankTurn(), roundOff);
        assertTrue(model.belts().get(0).lengthMm().isPresent());
        draft.route(0, "alternator");
        assertEquals("crank", draft.state().get().belts().get(0).path());
    }

    @Test
    void newRoleBringsItsUsualRingUnlessOneWasChosen() {
        String name = draft.add(100, 100);
        assertEquals(Ring.OUTER, row(name).ring());
        draft.change(name, row(name).as(Role.ALTERNATOR));
        assertEquals(Ring.INNER, row(name).ring());
        draft.change(name, row(name).turning(Ring.OUTER));
        draft.change(name, row(name).as(Role.WATER_PUMP));
        assertEquals(Ring.OUTER, row(name).ring());
    }

    @Test
    void beltsFollowANewNameAndForgetARemovedPulley() {
        draft.name("ML-12");
        String name = draft.add(100, 100);
        draft.route(0, name);
        draft.change(name, row(name).named("roller"));
        assertEquals("crank, roller", draft.state().get().belts().get(0).path());
        assertEquals("roller", draft.selected().get());
        draft.remove("roller");
        assertEquals("crank", draft.state().get().belts().get(0).path());
        assertEquals("crank", draft.selected().get());
    }

    @Test
    void everyEditCanBeTakenBackAndDoneAgain() {
        DriveState start = draft.state().get();
        draft.name("ML-12");
        draft.add(100, 100);
        DriveState end = draft.state().get();
        draft.undo();
        draft.undo();
        draft.undo();
        assertEquals(start, draft.state().get());
        draft.redo();
        draft.redo();
        draft.redo();
        assertEquals(end, draft.state().get());
    }

    @Test
    void whatIsTypedWronglyIsKeptAndSaid() {
        draft.name("ML-12");
        draft.change("crank", row("crank").wide("15o"));
        assertEquals("15o", row("crank").diameter());
        assertEquals(List.of("The crank needs its diameter."), complaints().subList(0, 1));
        draft.change("crank", row("crank").wide("150,5").across("").up("5"));
        assertTrue(complaints().get(0).contains("both numbers"), complaints().toString());
        draft.change("crank", row("crank").across("0").bearing("6 x 30 / 20"));
        assertTrue(complaints().get(0).contains("6 x 30 / 20"), complaints().toString());
        draft.change("crank", row("crank").bearing("6203, 8 x 6.75 / 28.5, ?").passing("blades"));
        assertTrue(complaints().get(0).contains("a number and a word"), complaints().toString());
        draft.change("crank", row("crank").passing("11 blades"));
        draft.engine("4", "4", "800", "1, 3, 4, 4");
        assertTrue(complaints().get(0).contains("firing order"), complaints().toString());
    }

    @Test
    void sistersDriveIsCopiedButNotItsName() {
        draft.name("ML-12");
        draft.describe("the new one");
        draft.copyFrom(new SimulatedVan(false).vehicle());
        Vehicle copy = draft.outcome().get().model().orElseThrow().vehicle();
        assertEquals("ML-12", copy.unit());
        assertEquals("the new one", copy.description());
        assertEquals(new SimulatedVan(false).vehicle().pulleys().size(), copy.pulleys().size());
        draft.undo();
        assertEquals(1, draft.state().get().pulleys().size());
    }

    /** An inch is 25.4 mm by definition. */
    @Test
    void inchesAreShownAndTyped() {
        assertEquals("6.063", Lengths.shown("154", Preferences.Units.IMPERIAL));
        assertEquals("152.4", Lengths.typed("6", Preferences.Units.IMPERIAL));
        assertEquals("15o", Lengths.typed("15o", Preferences.Units.IMPERIAL));
        assertEquals("154", Lengths.shown("154", Preferences.Units.METRIC));
    }
}
