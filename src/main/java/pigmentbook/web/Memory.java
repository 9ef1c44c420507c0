package pigmentbook.web;

import com.sun.management.HotSpotDiagnosticMXBean;
import java.lang.management.ManagementFactory;

/**
 * Gives memory back to the computer once nobody works: a program that stays open all day beside others should be small.
 * Where the virtual machine is another one, or these settings are not its own, all stays as it is.
 */
final class Memory {

    private static final long FIRST_REST_MS = 3000;
    private static final String LOOK_EVERY_MS = "20000";
    private static final String LEAST_FREE_PERCENT = "10";
    private static final String MOST_FREE_PERCENT = "70";

    private Memory() {}

    /**
     * Settings that the virtual machine lets a running program change; then, once the first page was read for a moment,
     * the room that the start took is given back, so that a day's typing doesn't fill all of it first.
     */
    static void giveBackWhenIdle() {
        try {
            Thread.sleep(FIRST_REST_MS);
            HotSpotDiagnosticMXBean machine = ManagementFactory.getPlatformMXBean(HotSpotDiagnosticMXBean.class);
            if (machine != null) {
                machine.setVMOption("MinHeapFreeRatio", LEAST_FREE_PERCENT);
                machine.setVMOption("MaxHeapFreeRatio", MOST_FREE_PERCENT);
                machine.setVMOption("G1PeriodicGCInterval", LOOK_EVERY_MS);
                System.gc();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } catch (IllegalArgumentException | UnsupportedOperationException e) {
            System.getLogger(Memory.class.getName()).log(System.Logger.Level.DEBUG, "memory is left as it is", e);
        }
    }
}
