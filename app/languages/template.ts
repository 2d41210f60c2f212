<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1">
  <context>
    <name />
    <message>
      <source>&amp;File</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Edit</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Panel</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>P&amp;lan</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;View</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Help</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>New from &amp;measurements</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Draft a gored skirt or a canopy</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>New from a &amp;drawn pattern…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Bring in a pattern drawn as SVG, DXF or PDF</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>New from a &amp;photograph…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Trace paper pieces in a photograph</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Open…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Open a project</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Save</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Save the project</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Save &amp;as…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Save the project under another name</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Add pieces from a drawing…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Bring more pieces into this project</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Quit</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Close the workbench</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Undo</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take the last step back</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Redo</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Do it again</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Select &amp;all</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Select all panels on this cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Settle on &amp;matches and neighbours</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Dragged panels settle where their seams match best and against their neighbours; Alt suspends it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Others follow</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>While panels are moved or turned, the other free panels go where their seams match best</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Hold</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Hold the panel where it is, or let it go</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;End for end</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Lay the panel end for end; not on a one-way cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Turn &amp;left</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Turn the panel left by 0.05°</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Turn &amp;right</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Turn the panel right by 0.05°</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A repeat to the le&amp;ft</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Move the panel across by one repeat: no step changes</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A repeat to the r&amp;ight</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>To the &amp;other side</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Send the panel across the cloth's middle by whole repeats: no step changes</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Move by…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Type how far to move and turn</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Spread out</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Lay all panels side by side by whole repeats: no step changes</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Match &amp;patches</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Move what lies on panels to where its stripes continue theirs</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Cloth…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Width, stripes, flaws and limits of the cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Repeat from a picture…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Read a cloth's stripes from a scan or a photograph</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Add a cloth…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>One more cloth, for interlining or lining</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>From the shel&amp;f…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take a cloth that was kept for other projects</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keep what is left on the s&amp;helf…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Put what is left of the cloth, once the panels are cut where they lie, on the shelf</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What co&amp;unts…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What lies on the centre, whether pairs mirror each other, how much bars count</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Match stripes</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Find the places across the stripes, and the turns, at which all seams match best</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Shift st&amp;itching lines…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Move the stitching lines between panels by a hair so that the stripes meet; the girth stays</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Lay on the cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Fit all panels on the cloth in little length; matches stay as they are</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Wha&amp;t does it cost in cloth?</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Lay it one way and end for end, matched and not, with another centre, and tell the lengths</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Papers…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Write cutting plan, placement cards and lists into a folder</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Se&amp;w edges together</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pick two edges on the cloth to make a seam of them</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keep as a &amp;variant</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keep how things stand under a name, to compare and to come back to</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What would &amp;help</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Work out what each change would gain: tolerances, holds, flares, grain</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stop and &amp;keep the best</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>End the laying and take the best lay so far</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Cancel</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Cancel what is being worked on</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Zoom &amp;in</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Come nearer</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Zoom &amp;out</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Go further off</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Fit</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Show the whole cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Fit &amp;width</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Show the cloth's whole width</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Fit &amp;panel</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Show the selected panels large</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;True size</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A millimetre is a millimetre</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Close-up</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The picked seam as it will be sewn</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Garment</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>All panels side by side as worn</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>W&amp;orn</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The garment as it hangs, seen from any side</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pane&amp;ls</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>All panels in a list, for the keys</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Se&amp;wing</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The seams, and what walking them finds</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Cut &amp;list</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What to cut and buy, and what is cut</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Variants</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How things stood, and what would help</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;As sewn</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What to expect once hands have cut and sewn</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Next seam</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pick the next seam</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Seam &amp;before</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pick the seam before</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Lengths in mi&amp;llimetres</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Millimetres everywhere on the screen</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Lengths in c&amp;entimetres</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Centimetres on the screen</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Lengths in in&amp;ches</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Inches on the screen: lengths with fractions, steps with three decimals</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Dark</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Dark surroundings</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Help…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What step, lean, drift and the rest mean</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Keys</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>All keys on one sheet</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>as it is</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>panels end for end, if the cloth allows it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>all panels one way</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>stripes not matched</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>the lead stripe on the centre</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>the ground on the centre</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>the centre left free</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Drag</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Move panels; they settle where they match</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Alt while dragging</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Move freely</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Esc</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take a drag back, or select nothing</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Arrow keys</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Move the selected panels by 1 mm</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Shift + arrow keys</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Move by 10 mm</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Ctrl or Alt + arrow keys</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Move by 0.1 mm</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Tab, Shift + Tab</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Go from panel to panel</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Shift or Ctrl + click</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Add a panel to the selection, or take it out</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Drag on bare cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Select what the band touches</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Wheel</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Zoom at the cursor</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Shift + wheel</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Move along the cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Middle button, Space + drag</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Move the view</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The job in six steps</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Before you cut</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Step</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Lean</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Drift</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Along-gap</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Easing</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Seam shift</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Turn and tolerance</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Even and uneven repeats</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>One-way cloth, and end for end</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Tools</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keys</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>On the cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Errors</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What goes wrong, as a rule</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Two times in three an error is smaller than what stands here. The cut is the trade's ±2 mm; the others are common practice: put your own in.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Usual values</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Put the values back that the program came with</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>As sewn</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What to expect once it is sewn</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Seams as sewn</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No seam joins two panels of one striped cloth.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Over {limit}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Seam</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Seams that are matched</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The rms of the step as it is planned</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How far the step will scatter about the plan: two times in three it is within</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The rms of the step to expect</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The share of the seam on which a larger step is to be expected</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{turn}   {off} of {most} {unit}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What does it cost in cloth?</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The garment is laid once for each choice, with the same work. Nothing is changed.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Progress</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What each choice takes</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Choice</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Lay, {unit}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>More, {unit}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>To buy, {unit}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Cost</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Comparing what it takes</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keep</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No places yet: until then all panels are read at the corner of the cloth.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Match stripes</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Spread out</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The panels lie on one heap: how they match is known, not yet where each is cut.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Lay on the cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pictures</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Which picture</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Beside the cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What is beside the cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Readings</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>left of {title}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Working out what is left</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What is left of {cloth} is on the shelf.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>This can't be opened: {error}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Not saved: {file} on disk is another one.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Save as…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{file} was changed by something else since it was read. Save over it?</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>This could not be saved: {error}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Save elsewhere…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{file} was changed by something else. What is open here stays as it is.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Read it again</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>This can't be read again: {error}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Read {file} again</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Save the changes to {title}?</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stripewright projects</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>stripes {0}, bars {1}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Whole garment, rms</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>1. Bring the pattern in: draft it from measurements, or bring in one that is drawn, scanned or photographed. Take it back to its stitching line, and sew the edges together on the sewing page, so that the two edges of every seam are of one length.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>2. Describe the cloth: its width, its true repeat measured over many repeats, whether it has a nap, how far panels may be turned off the grain, its flaws, and how much of it there is.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>3. Match the stripes. The program finds the places and turns at which all seams together match best, the seams that show most first, and says in millimetres what is left over at every seam.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>4. Lay the panels on the cloth. They keep their places across the stripes, and are moved by whole repeats and along the cloth until they take little length.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>5. See to the rest: interlining, facings, linings, strips. The cut list counts every piece, and says what to buy.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>6. Write the papers and take them to the table: a card for each panel that says how it lies on the stripes, the cutting plan, and the full-size pattern with the stripes on it.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Measure the square on the first page of the papers. If it is not true to size, print again without scaling.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Shrink and press the cloth before you measure its repeat. It will not be the same afterwards.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Measure the repeat over ten repeats or more and divide: a tenth of a millimetre adds up across the cloth.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Lay everything out before the first cut. Cutting is final.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Cut every panel singly, face up. Two layers of striped cloth never lie stripe on stripe.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Baste along the stitching line through matching stripes before you sew: the machine's feed moves the layers.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stiff open-weave cottons and full hems burn readily. Near flames or stage effects follow the local fire code.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The step is how far the stripes of the two panels miss each other at a seam, measured square across the stripes. It has a height: at one place of a seam it may be nothing, and further down it may be a lot.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The rms of a seam stands for the step over its whole length, large steps weighing more than small ones. The worst is the largest step, with the height at which it lies. The figure of the garment puts all seams together, each by how much it shows.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Below, the same two gores: stripes that meet, and stripes that miss by 4 mm. A step of up to 2 mm is marked by a plain line, of up to 3 mm by dashes, a larger one by heavy dots.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The lean of an edge is the way it carries you across the stripes as you go down it. A gore that flares has one edge that leans left and one that leans right.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Where the two edges of a seam lean opposite ways, as in the first picture, the stripes meet in a chevron. Where they lean alike, as in the second, they run on across the seam.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>It decides what can be done about a step. Moving the stitching line closes a step where the edges lean opposite ways. Where they lean alike it does nothing, since both panels' stripes move alike.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Where one edge leans more than the other, the stripes of a seam can meet at one height only. From there on the step grows. How fast is the drift, in millimetres of step for every metre of seam.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No placement takes a drift away. The best that can be done is to share it out: a step one way at the top, none in the middle, and one the other way at the bottom. That is what matching does. Turning a panel, easing and moving the seam change the drift itself.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Below, the same seam met at the top, and shared out. It drifts {drift} mm per metre.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A stripe that crosses a seam reaches it at one height on the left panel and at another on the right one. The difference, measured along the seam, is the along-gap. The close-up writes it beside each crossing.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>It is what you see when you lay the two edges together: how far one would have to slide on the other. The steeper the stripes lie to the seam, the longer the gap that one step makes: in the picture a step of {step} mm makes gaps of {gap} mm.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Easing is sewing a longer edge to a shorter one so that no pleat shows. It brings stripes together that reach the seam at different heights.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The seam in the first picture drifts. With the right edge {share} longer and eased in, as in the second, every stripe meets. Wool shrinks to it under the iron, firm cotton takes hardly any, and easing that is forced puckers the seam: more often than not what a step asks for can't be had.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A seam shift moves the stitching line between two panels: a little out on one, as much in on the other. The girth stays the same at every height, and so does the fit, as nearly as anybody can tell.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Where the edges lean opposite ways the step changes by twice the shift. A step of 3 mm, in the first picture, is closed by a shift of 1.5 mm, in the second. The shift may change down the seam, and so take a drift away as well.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A panel may be turned off the grain by a little, which changes how its edges lean. How much is the grain tolerance of the cloth: a quarter of a degree is 3 mm over 700 mm of length.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>More than that shows in how the skirt hangs, before it shows in the stripes. A panel that is held is not turned at all.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The seam in the first picture drifts. In the second the right panel is turned by {turn}°, which is {mm} mm over its height of {high} mm.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A repeat is even if it is its own mirror image about some stripe or gap: turn the cloth over or round, and it looks the same. If it isn't, it is uneven.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>In a chevron the stripes of one panel are the mirror image of the other's. With an even repeat all of them meet, as in the first picture. With an uneven one only the lead stripe can, as in the second, whatever anybody does: the fine stripe is on the wrong side of it.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A cloth is one-way if it has a nap, or a pattern with a top and a bottom. All panels must then lie the same way up.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Where it is not, a panel may be laid end for end. That exchanges its right and left as far as the stripes are concerned, and so mends what an uneven repeat spoils: in the first picture both panels lie the same way, in the second the right one lies end for end, and all stripes meet.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Help</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Find</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Find in the help</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Topics</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What the topic says</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No page has these words.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Picture of a seam: {name}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What counts</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>whatever matches best</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>the lead stripe</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>middle of the ground</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>On the centre</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>seam {name}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>panel {name}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The centre is</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>where the stripes allow it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>always</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>need not</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Left panels mirror right ones</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Bars count, against stripes</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;On the centre</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The centre &amp;is</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Left panels &amp;mirror right ones</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Bars count, against stripes</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>1: as much; 2: twice as much; 0: bars need not meet.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Change what counts</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Message</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Close this message</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Move by</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Across</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>To the right selvedge; with a minus sign to the left one</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Along</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Away from the cut end; with a minus sign towards it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Turn, °</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Clockwise, about the middle of each panel, inside the grain tolerance</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Counted from where the panels lie. A minus sign means left, up, or anticlockwise.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Across</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A&amp;long</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Turn</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Move</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>width</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>left selvedge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>right selvedge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Widths at several places</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Add a width</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The narrowest width and the broadest selvedges count.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take the narrowest</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Washed square</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>marked square</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>across</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>along</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Reckon the whole cloth as washed</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>before washing</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>after washing</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Width there</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{width} wide counts, of it {usable} between the selvedges.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Mark a square, wash and press it as the cloth will be, and measure its sides again.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>It loses {across} % across and {along} % along.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Left selvedge there</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Right selvedge there</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Width and shrinkage by ruler</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Straightness</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Flaws, remnant, room between panels</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>To buy</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Name</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Name of the cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Width</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>selvedges included</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>not to be cut into</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Left selvedge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Right selvedge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>as much as it takes</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>all there is</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Length</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How long it is</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Length of the cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>There are</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>from cut end to cut end</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Nap or pattern has a direction: no panel may lie end for end</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>one-way</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Direction</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>no panel lies end for end</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Grain tolerance, degrees</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How far a panel may turn off the grain</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Grain tolerance, °</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stripes</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>none: a plain cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>stripes along it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>bars across it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>both: check or plaid</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pattern</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Bars</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>left</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>right</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>from</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>to</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Flaws</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Add a flaw: a rectangle</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Room between panels</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Room between</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>kept free between any two panels</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Each is a rectangle to keep clear of: left and right from the left edge, from and to from the cut end.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Shrinkage, percent</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Shrinkage, %</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>lost in length when first wetted</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Easing, percent</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>2, as is usual</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>an edge can be eased onto another by at most this</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Easing, %</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Price per metre</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>unknown</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Price per m</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>in whatever money</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Flaw, {side}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>right lies beyond left, to beyond from</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{mm} over a metre</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{mm} over the longest panel, {longest}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keep the cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>From the shelf…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keep on the shelf…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keep this cloth for other projects</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{cloth} is on the shelf.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Cloth shown</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Add a cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take this cloth out</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Cloth {number}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Nothing odd was found.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The cloth across its width</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{width} wide</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>a remnant, to {end}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{length} long</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>plain</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>repeat {width}, {kind}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>bars {width}, {kind}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>even</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>uneven</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stripes: {words}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Bars: {words}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Even: it is its own mirror image; the axis that is matched lies at {axis}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Uneven: it has no mirror axis; the middle of {name}, at {axis}, is matched.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>True period {period}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>True period {period}: the pattern comes back {times} times in a repeat.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>repeats</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>over</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>at, along the cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Add a count</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Use this spread in As sewn</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Puts it in as the error of a repeat that varies along the cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What the repeats take together</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Where they were counted</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Number of repeats counted</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>As sewn reckons with a repeat that varies by {percent} %.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>One repeat is {width}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Count at two more places, far apart, to learn how surely.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{counts} counts scatter by {spread}; their mean is sure to {sd}, which is {off} after {away} repeats.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Along the cloth it changes by {drift} per metre.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Corners of an outline can be dragged here, and typed in the form</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Which outline</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Flaw</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Remnant</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Hole</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Draw it on the picture</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take it out</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>One more flaw of any outline</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The outline of what there is</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A hole in what there is</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Click corner after corner; a click on the first one, or Enter, closes the outline</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>corner, across</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Corners of the outline</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Add a corner</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Add an outline</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Corner, across</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Corner, along</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>flaw outline {number}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>remnant</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>hole {number}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>typed</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>measured over several</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Repeat is</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How the repeat is given</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Repeat</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>until all begins again</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Counts of bars</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Counts of repeats</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>repeat, from the cut end</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>repeat, from the left edge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>First one at</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Beginning of the first repeat</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>seen only where there are no stripes</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>between the stripes</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Ground</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Colour of the ground</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>bar</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>stripe</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>middle at</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>colour</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Bars of one repeat</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Add a bar</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stripes of one repeat</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Add a stripe</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Lead bar</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Lead stripe</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>the one that the eye follows</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Middle of {name}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Width of {name}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Colour of {name}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Name of the stripe</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>there is no stripe</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>stripes</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>add one, or choose a plain cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Three repeats of the stripes</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A plain cloth: there is nothing to match.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>repeat {width}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>true period {width}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>bars
{width}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>turned: the cut end is at the left</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>axis</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>middle of the lead stripe</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>measured</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>by</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Straightness as measured</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stripes lean, mm per m</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stripes lean, mm/m</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>to the right, down a metre</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Skew of the crosswise threads, percent</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Threads skewed, %</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>further on at the right edge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Bow of the crosswise threads, percent</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Threads bowed, %</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>further on in the middle</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stripe, off the selvedge's line</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Off the line</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Over a length</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Thread, further on at the right edge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Further on</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Across the width</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Washed square: diagonal from upper left, the other</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Diagonal from upper left</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The other one</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Thread, further on in its middle</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Depth of the bow</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{degrees}° to the right</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{degrees}°, further on at the right</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{percent} % at the edges</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take {cloth} from the shelf</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>held</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>end for end</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Worst step</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No seam with stripes to match</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>good</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>fair</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>poor</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Panels</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Columns</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>List of panels</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Papers</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A3, words on A4</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Printer's paper</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Millimetres</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Centimetres</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Inches</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Lengths in</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Cutting and stitching line</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Cutting line</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stitching line</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Lines of the pattern</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Width of the roll</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>For the pattern on one long sheet</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Paper</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Lengths in</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>L&amp;ines</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Roll width</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Choose folder…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Choose at least one paper.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Cards: {count}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Full-size tiles: about {count}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Cards, cutting plan and seam readings</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Full-size pattern in tiles and on a roll</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Edge strips for a pattern on paper</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Seam sheet for the machine</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Full-size plan for a projector or plotter</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Lists of pieces, notions and what to buy</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What would close the seam</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Apply to the pattern</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Move this seam's line in the pattern, in its mirrored seam alike</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>As it is</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The seam as the panels lie</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>With easing</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The seam with one edge eased onto the other as far as the cloth takes it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>With the line shifted</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The seam with its stitching line moved, the panels where they lie</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Shift stitching lines</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Move by at most</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Measured from the lines as they were drawn</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>may move too</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>stay where they are</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Ends of a line</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Moves the stitching lines between panels, one edge out and the other in by as much, so that the stripes meet better. Places and turns are chosen anew with them. The girth and the lengths of the edges stay as they are; mirrored panels change alike.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Move by at most</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Ends of a line</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Shift</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Looking for the best shift…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>rms {before} → {after} {unit}, worst {worst} → {left} {unit}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>There is nothing that easing could mend here.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Easing is not worth the work here: {change}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Ease {total} {unit} in all, in {count} stretches.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>left edge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>right edge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{stretch}: {share} % of the {edge}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Ease in {stretches}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>(Up to {limit} %, as is usual.)</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>There is nothing that moving the line could mend here.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{change}. The line moves by up to {by} {unit}, {at} {unit} down.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The line stays: {why}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Letting one edge out (+) or taking it in by {least} to {most} {unit} would close it and change the girth.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>There is nothing to match: no seam joins two panels of one striped cloth.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No line was moved: nothing would be gained by it.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Lines moved by up to {most} {unit}: {after} {unit} rms, {before} {unit} without that.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Something went wrong inside the program ({what}).</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Your work is still here, and kept on disk.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Your work is still here: save it now.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Your unsaved work can't be kept safe: {fault}. Save it now and then.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Work that was not saved</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Bring back</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Put away</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>This can't be brought back: {error}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{title} from {time}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>1 change not saved</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{count} changes not saved</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The program ended before this was saved: {what}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Shelf of cloths</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Cloths on the shelf</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take it in the place of {cloth}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take it as one more cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take it off for good…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Close</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Nothing lies here yet. The shelf keeps cloths for other projects, each with its stripes, its flaws and its outline: put one there with Keep on the shelf… on the page of the cloth, or with Keep what is left in the Plan menu, once a lay has been cut.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Picture of {cloth}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take {cloth} off the shelf for good? What projects hold of it stays as it is.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take it off for good</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>kept {day}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keep {cloth} on the shelf</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keep on the shelf</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Note</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>where it is from, what it is for</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Choose a picture…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Note</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Picture</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pictures (*.png *.jpg *.jpeg *.tif *.tiff *.webp *.bmp)</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A picture of the cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Start</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Match the stripes at every seam before the shears touch the cloth.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>New from measurements</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>New from a drawn pattern…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>New from a photograph…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Open a project…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Recent</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Samples</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{count} panels have no place yet</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Match the stripes, or spread the panels out</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Can't be cut as it lies</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Can be cut as it lies</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No cut lines overlap, and all lie on usable cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>lay {length} {unit}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No panels overlap</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{count} panels overlap</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{count} off the cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Variants</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Variant</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Double click goes to it; F2 gives it another name</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>As it stands</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{figure}, the best</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{name}, in force</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Worst on {seam}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{count} panels lie end for end</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{count} panels that are cut already lie elsewhere in it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What would help</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Change</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Rms</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Gain</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What could be otherwise; Enter on a row of the list tries it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The garment's figure with it, matched</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How much lower that is than without</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Changes by gain</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Why steps are left</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Why each seam is left with steps, and what each change would gain: a wider or narrower tolerance, a held panel let go, flare shared otherwise, the grain in a piece's middle.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Work it out</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Match anew under each change worth trying: other limits, holds, flares, grain</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Try as a variant</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Make this change, matched; how things stand is kept as a variant</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Try: {what}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The project is another one since. Go back to the variant it was worked out for, or do it again.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keep how things stand under a name, go on, and compare: placed by hand and matched, other tolerances, weights or pieces. Whatever is kept is one click away.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keep as it stands</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keep places, limits and weights under a name</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Go to it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Bring the project back to the chosen variant, as one step</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Rename</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Give the chosen variant another name</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Delete</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Forget the chosen variant</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Variant {number}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keep {name}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Delete variant {name}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Go to {name}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Rename {name}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>That name can't be had: {why}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>&amp;Recent</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Sa&amp;mples</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The garment as it hangs</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Drag to turn; wheel to come nearer</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>It can't be hung up: {why}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{angle}° from above</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{angle}° from below</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>not shown: {panels}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Turned {angle}° to the left</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Turned {angle}° to the right</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Not turned</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>From the back</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>From the front</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{angle}° round to the wearer's left</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{angle}° round to the wearer's right</source>
      <translation type="unfinished" />
    </message>
  </context>
</TS>
