package tickover.link;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;

/** The real port library on real pseudo-terminals. */
@DisabledOnOs(value = OS.WINDOWS, disabledReason = "Windows has no pseudo-terminals")
class SerialLinkTest {
    private static final int BAUD = 500_000;
    private static final double PATIENCE_S = 20;

    /** Reads exactly so many bytes. */
    private static byte[] readAll(ByteLink link, int count) {
        byte[] all = new byte[count];
        byte[] buffer = new byte[4096];
        int at = 0;
        long until = System.nanoTime() + Math.round(PATIENCE_S * 1e9);
        while (at < count) {
            assertTrue(System.nanoTime() < until, at + " of " + count + " bytes came");
            int n = link.read(buffer);
            assertTrue(at + n <= count, "more bytes than were sent");
            System.arraycopy(buffer, 0, all, at, n);
            at += n;
        }
        return all;
    }

    /** Every value a byte can have, many times. */
    private static byte[] anyBytes(int count) {
        byte[] bytes = new byte[count];
        new Random(1).nextBytes(bytes);
        return bytes;
    }

    @Test
    void bytesPassBothWaysAsTheyAre() {
        byte[] sent = anyBytes(2000);
        try (PseudoTerminal device = PseudoTerminal.open();
                SerialLink port = SerialLink.open(device.path(), BAUD)) {
            device.write(sent);
            assertArrayEquals(sent, readAll(port, sent.length));
            port.write(sent);
            assertArrayEquals(sent, readAll(device, sent.length));
            assertEquals(0, port.read(new byte[10]), "idle");
        }
    }

    @Test
    void tenMegabytesComeWithoutALoss() throws InterruptedException {
        byte[] sent = anyBytes(10_000_000);
        try (PseudoTerminal device = PseudoTerminal.open();
                SerialLink port = SerialLink.open(device.path(), BAUD)) {
            Thread writer =
                    new Thread(
                            () -> {
                                for (int at = 0; at < sent.length; at += 3000) {
                                    int to = Math.min(sent.length, at + 3000);
                                    device.write(Arrays.copyOfRange(sent, at, to));
                                }
                            });
            writer.start();
            assertArrayEquals(sent, readAll(port, sent.length));
            writer.join();
        }
    }

    @Test
    void anUnplugIsNoticedAndThePortCanBeOpenedAgain() {
        PseudoTerminal device = PseudoTerminal.open();
        try (SerialLink port = SerialLink.open(device.path(), BAUD)) {
            device.close();
            LinkException e =
                    assertThrows(
                            LinkException.class,
                            () -> {
                                // Idle reads may come first.
                                for (int i = 0; i < 20; i++) {
                                    port.read(new byte[10]);
                                }
                            });
            assertEquals(LinkException.Reason.GONE, e.reason());
            assertEquals(device.path() + " is gone; plug it in again", e.getMessage());
            assertThrows(LinkException.class, () -> port.write(new byte[] {1}));
        }
    }

    @Test
    void closingFromAnotherThreadReleasesAReader() throws InterruptedException {
        try (PseudoTerminal device = PseudoTerminal.open()) {
            SerialLink port = SerialLink.open(device.path(), BAUD);
            Thread reader =
                    new Thread(
                            () -> {
                                try {
                                    while (true) {
                                        port.read(new byte[10]);
                                    }
                                } catch (LinkException closed) {
                                    // Which is what ends the thread.
                                }
                            });
            reader.start();
            Thread.sleep(50);
            port.close();
            reader.join(2000);
            assertTrue(!reader.isAlive(), "the reader still waits");
        }
    }

    /** Nobody reads the other side, so the terminal fills up while it is written to. */
    @Test
    void closingReleasesAWriterThatFindsNoRoom() throws InterruptedException {
        PseudoTerminal full = PseudoTerminal.open();
        CountDownLatch ended = new CountDownLatch(1);
        Thread writer =
                new Thread(
                        () -> {
                            try {
                                full.write(new byte[1 << 20]);
                            } catch (LinkException e) {
                                ended.countDown();
                            }
                        });
        try (SerialLink silent = SerialLink.open(full.path(), BAUD)) {
            assertEquals(full.path(), silent.name());
            writer.start();
            assertFalse(ended.await(300, TimeUnit.MILLISECONDS), "there was room for a megabyte");
            full.close();
            assertTrue(ended.await(5, TimeUnit.SECONDS), "the writer still waits");
        }
        writer.join(5000);
    }

    @Test
    void aPortThatIsInUseIsRefusedWithAdvice() {
        try (PseudoTerminal device = PseudoTerminal.open();
                SerialLink first = SerialLink.open(device.path(), BAUD)) {
            LinkException e =
                    assertThrows(LinkException.class, () -> SerialLink.open(device.path(), BAUD));
            assertEquals(LinkException.Reason.BUSY, e.reason(), e.getMessage());
            assertTrue(e.getMessage().startsWith("another program has " + first.name()));
        }
    }

    @Test
    void aPortThatIsNotThereIsNamed() {
        LinkException e =
                assertThrows(
                        LinkException.class, () -> SerialLink.open("/dev/tty-not-there", BAUD));
        assertEquals(LinkException.Reason.NO_SUCH_PORT, e.reason());
        assertTrue(e.getMessage().startsWith("there is no port /dev/tty-not-there;"));
    }

    @Test
    void everySystemGetsItsOwnAdvice() {
        assertTrue(
                SerialLink.refused("/dev/ttyUSB0", BAUD, 13, true, "Linux")
                        .getMessage()
                        .contains("dialout"));
        assertEquals(
                LinkException.Reason.BUSY,
                SerialLink.refused("COM5", BAUD, 5, true, "Windows 11").reason());
        assertTrue(
                SerialLink.refused("/dev/tty.usb1", BAUD, 16, true, "Mac OS X")
                        .getMessage()
                        .contains("cu"));
        assertEquals(
                "/dev/ttyUSB0 does not run at 500000 Bd; give the speed that the device is set to,"
                        + " such as 115200",
                SerialLink.refused("/dev/ttyUSB0", BAUD, 22, true, "Linux").getMessage());
        assertEquals(
                LinkException.Reason.FAILED,
                SerialLink.refused("/dev/ttyUSB0", BAUD, 99, true, "Linux").reason());
    }

    /** A driver may take another speed than it was asked for, and say nothing. */
    @Test
    @EnabledOnOs(value = OS.LINUX, disabledReason = "only Linux tells the speed")
    void theSpeedAtWhichALineRunsIsAsked() {
        for (int baud : new int[] {9600, 115_200, 12_345, 500_000}) {
            try (PseudoTerminal device = PseudoTerminal.open();
                    SerialLink port = SerialLink.open(device.path(), baud)) {
                assertEquals(baud, LineSpeed.of(port.name()).orElseThrow());
            }
        }
        assertTrue(LineSpeed.isNear(117_647, 115_200), "2.1 % off, as 16 MHz boards are");
        assertFalse(LineSpeed.isNear(38_400, 12_345));
    }

    /** Waiting for whoever opens the other side costs next to no processor time. */
    @Test
    void aTerminalThatNobodyOpenedWaits() {
        try (PseudoTerminal device = PseudoTerminal.open()) {
            long until = System.nanoTime() + 500_000_000L;
            int reads = 0;
            while (System.nanoTime() < until) {
                assertEquals(0, device.read(new byte[10]));
                reads++;
            }
            // One each 50 ms, and a few more for the clock's grain.
            assertTrue(reads < 20, reads + " reads in half a second");
        }
    }

    @Test
    void aDeviceKeepsItsKeyUnderAnotherPath() {
        String first = SerialPorts.deviceKey("/dev/ttyACM0", 0x1234, 0xABCD, "A1");
        assertEquals(first, SerialPorts.deviceKey("/dev/ttyACM3", 0x1234, 0xABCD, "A1"));
        assertEquals("/dev/ttyS0", SerialPorts.deviceKey("/dev/ttyS0", -1, -1, null));
        assertEquals("COM4", SerialPorts.deviceKey("COM4", 0x1234, 0xABCD, "Unknown"));
    }

    @Test
    void listedPortsAreInOrderAndNamed() {
        var ports = SerialPorts.list();
        for (int i = 1; i < ports.size(); i++) {
            assertTrue(ports.get(i - 1).path().compareTo(ports.get(i).path()) < 0);
        }
    }
}
