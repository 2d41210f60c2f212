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
      <source>of the whole</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>without it</source>
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
      <source>Planned</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Spread</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Expected</source>
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
      <source>Move {panels}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Turn {panels}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{turn}   {off} of {most} {unit}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Ruler across the cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Ruler along the cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Unit of the rulers: {title}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The cloth with its panels; Tab goes through the panels, arrow keys move them</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pick a seam in the table to see it as it will be sewn.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Close-up of a seam</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>open</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>not seen</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Down</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>left side</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>right side</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Crossing</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>stripe</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Along</source>
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
      <source>Cut list</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Add</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Add a layer under pieces, a pocket, or strips</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Change…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Change the layer, pocket or strip of this row</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Remove</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take out the layer, pocket or strip of this row</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Notions</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Cloths</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pocket…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Strip…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{total} pieces to cut, {count} of them cut</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{error}. Change or remove it.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>area, {unit}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>laid, {unit}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>buy, {unit}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>cost</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{count} panels</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Tick off {what}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take the tick off {what}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A pocket lies in a seam: sew the edges together first.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Remove {title}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>That can't be done: {error}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Change</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Binding, both edges of all seams</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Braid round the hem, joined once</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{name}, along its edge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Interlining</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Hem facing</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Top lining</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Straight</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Bias</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keep</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Layer</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Kind</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Name</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Edge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Depth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Allowance</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>as the piece</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Allowance at the loose edge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>joined across seams</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>empty: its kind</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Under</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Along edge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>of every piece ticked</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>from that edge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Loose edge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>allowance where the depth ends</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>In one piece</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>as far as the cloth is wide enough</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>empty: as the piece has them</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>It lies under no piece; tick at least one.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Strip</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Length</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Width</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Number</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Grain</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>placket, belt, patch, flap</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>stitching line</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>added all round</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Panel it lies on</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Its middle to the right of the panel's origin</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Its middle below the panel's origin</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Turned against the panel, degrees clockwise</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Middle, across</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>from the panel's origin, right is +</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Middle, down</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>from the panel's origin</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Turned, °</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>clockwise, against the panel</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Lies on</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>continues the stripes of that panel</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pocket</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Mouth from</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Mouth to</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Width of the bag</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Depth of the bag</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Number of bags</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>two for each seam</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>the one its mouth lies in</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>down the seam, from its upper end</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>down the seam</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>how far the bag reaches into the panel</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>how far it hangs below the mouth's end</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>bags to cut; half of them mirrored</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>it is {length} long</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Close-up</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Garment</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Worn</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Panels</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Sewing</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Variants</source>
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
      <source>Untitled</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{panels} is held. Press H to let go.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{panels} are held. Press H to let go.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Nudge {panels}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Move {panels} by a repeat</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Send {panels} to the other side</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{panels}: this cloth allows a turn of {limit:g}° off the grain.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{cloth} is one-way: no panel may lie end for end.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Turn {panels} end for end</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Hold</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Let go of</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Spread panels out</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>There is no patch to move: none lies on a panel, or all continue its stripes.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Match patches</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Match again</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Matching stripes</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Working out what would help</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Shifting stitching lines</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Shift again</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Shift stitching lines</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Lay again</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Nothing shorter was found than how the panels lie.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Papers…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Laying</source>
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
      <source>Folder for the papers</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{count} papers are in {folder}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Show the folder</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Writing papers</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The project has changed meanwhile, so the result was put aside.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>There is nothing to match: no seam joins two panels of one striped cloth.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The stripes already matched as well as they can: {rms} rms.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Matched: {after} rms, {before} before.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stopped early.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{lay}. Cut lines cover {shares} of it.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Left over: {names}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>It would fit with {changes}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source> or </source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Tried, and still too long: {changes}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No part of this seam counts: it is open or not seen from end to end.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>rms {step} {unit}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>worst {step} {unit}, {length} {unit} down</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>the step drifts {drift} {rate}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The repeat is uneven and the edges lean opposite ways: only the lead stripe can meet here.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Drawn patterns (*.svg *.dxf *.pdf);;All files (*)</source>
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
      <source>Figure of the garment</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The root of the mean squared step over all seams, each weighted by how much it shows.
Beside it: how many seams have their worst step in each grade.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{fine} {unit} rms</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>no stripes to match</source>
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
      <source>to {limit}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>more</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{mm:g} mm</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Open a project to see its panels as they are worn.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The garment as worn</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{label}: rms {step} {unit}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{first} to {last}</source>
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
      <source>Met at the top</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Shared out</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>One length</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Eased in</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>3 mm off</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>On the grain</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Turned</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Uneven: the same way up</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>They meet</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>4 mm off</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Opposite ways</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Alike</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Moved 1.5 mm</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Even</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Uneven</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Right one end for end</source>
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
      <source>Cloth shown</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The cloth that is shown</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Across</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>u: where the panel's origin lies across the cloth, from the left selvedge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>v: where the panel's origin lies along the cloth, from the cut end</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Most that the panel may be turned</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>End for end</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Laid end for end (T); not on a one-way cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Held panels stay where they are (H)</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Offset from the nearest lead stripe</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Selected panel</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Where the panel's origin lies beside the nearest lead stripe</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How far this cloth lets a panel turn off the grain, and what that is over its length</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>At most {words} over the panel's length</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Nothing selected</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Turn, °</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How far the panel is turned off the grain, clockwise; its origin stays</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Something went wrong inside the program ({kind}: {what})</source>
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
      <source>To the right selvedge; with a minus sign to the left one</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Away from the cut end; with a minus sign towards it</source>
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
      <source>Measurements</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Radius</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>from the middle to the rim, level</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Rise</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>from the rim's level up to the crown</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Number of ribs</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Ribs</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>as many gores</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Hole at the crown</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>its radius; 0: the gores meet in a point</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>how far it is hollowed out between two ribs</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Hollow of the rim</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>a smooth rim</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Seam and hem allowances</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Seams</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Rim</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Crown</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>where there is a hole</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>as is usual</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A stand-in: enter your own cloth before you match.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Enter the cloth…</source>
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
      <source>Name of the cloth</source>
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
      <source>{right} (in mm)</source>
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
      <source>Gored skirt</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Canopy or parasol</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Draft</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What to draft</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>New from measurements</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Make the project</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>These are the measurements of a stand-in. Type your own: the pieces follow.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The pieces appear here.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The pieces shown are those of the last measurements that could be drafted.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>a length is missing</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{low:g} to {high:g}{of} is right</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>a number is missing</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{text} is no number</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>it is {value:g}{of}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{name}: choose another</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>once</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>as pairs</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>as all</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>as a pair</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>on the fold</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Drawing</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Scale</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pieces</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Lines</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The piece looked at</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Choose a file…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>as the file says</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>One unit is</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What one unit of the drawing is</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Page</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Page of the PDF</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Cut from</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Cloth they are cut from</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>as drawn</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>times a factor</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>by a known length</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>True size</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How the true size is found</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Factor</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>True length between the marks</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>True length</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>mark both its ends on the sheet</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>True side of the square</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Side of square</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>of the square drawn to check by</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Outlines</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Earlier</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Later</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The order of the pieces is the order round a ring</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>All are cut</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How all pieces are cut</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>stitching lines</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>cutting lines</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Drawn are</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What the lines drawn are</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Allowance of all edges</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>of all edges</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Corner angle, degrees</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Corner angle, °</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>an edge ends at sharper turns</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Name of the piece</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Is cut</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How this piece is cut</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Fold</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Edge on the fold</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>a straight edge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Turn, degrees clockwise</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>clockwise: grain upright, hem below</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Edges</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>edge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>allowance</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>length</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>in the order of the list</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Ring</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>sew to a ring</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{name}: choose another…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Choose another file than {name}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>by a square on it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>outline {index}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{right:.0f} × {bottom:.0f} mm as drawn</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{name}  ·  open, {length_mm:.0f} mm</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>It is not closed, so it encloses nothing that could be cut</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Allowance of {name}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Name of edge {name}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>both ends are to be marked</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>true length</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>click them on the sheet</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>it is drawn {drawn_mm:.2f} mm long: × {true:.5f}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>it is drawn {side:.2f} mm wide: × {true:.5f}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>no edge of it is straight</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>cut it otherwise</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Add pieces from a drawing</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>New from a drawn pattern</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Add to this project</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Click the outlines that are pieces.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Open a drawn pattern</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pieces from a photograph</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Click both ends of a line whose length you know.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>piece {index}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>no outline is chosen</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>choose those that are pieces, on the sheet or in the list</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>a length such as 640 or 25 1/2in is right</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>a length such as 64,5 or 25 1/2in is right</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>a length such as 25 1/2 or 64cm is right</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>1 panel</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>no</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>1 seam</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{count} seams</source>
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
      <source>Lengths in</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Back</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Findings</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Findings ({count})</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>cut {count}, a pair, one mirrored</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>cut on the fold</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>cut {count}, on the fold</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>cut once</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>cut {count}, all alike</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Click a piece to see it large, and again to see all</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A4, lying across</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A4, upright</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Letter, lying across</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Letter, upright</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>as typed</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>upper left</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>upper right</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>lower right</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>lower left</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Photograph</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Rectangle of known size</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Its corners</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Open a photograph…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Light paper on a dark table or the other way round, a sheet of paper beside it, all of both in view.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>It is</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Wide</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Width of the rectangle</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>in the picture</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>High</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Height of the rectangle</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Click the corners in the picture: upper left, then clockwise. Drag a mark, or move it with the arrow keys by a pixel, with Shift by ten; keys 1 to 4 choose one.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Corners of the rectangle</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>across, px</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>down, px</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Trace the outlines</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{name}: open another…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Open another photograph than {name}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{corner} corner, across, px</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{corner} corner, down, px</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pictures (*.png *.jpg *.jpeg *.tif *.tiff *.webp *.bmp);;All files (*)</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>New from a photograph</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Go on to the pieces</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Photograph of the piece</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Paper pieces on a table they stand out from, with a sheet of known size beside them.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Open a photograph</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Opening the picture</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Tracing the outlines</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>1 outline traced, true to size.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{count} outlines traced, true to size.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Open a photograph.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Mark 1 more corner of the rectangle, clockwise from the upper left.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Mark {count} more corners of the rectangle, clockwise from the upper left.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Now trace the outlines.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>finding outlines</source>
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
      <source>Take this row out</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take row {number} out</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>row {number}, {name}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Open a drawing: its outlines appear here.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The sheet</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Outlines are chosen by a click, or in the list of outlines</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Waist</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>round the waist</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Hip</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>round the fullest part</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Hip depth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>from waist down to hip</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Length in front</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>from waist to hem</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>At the side</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>if it is another</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Behind</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Sweep</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>round the hem</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>how far it stands above the waist</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Round the top</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>if it is not as wide as the waist</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Let out</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>added to the waist behind the front gores</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Centre seams</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>where a seam lies on a centre</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Upper edge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Hem</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>in the middle</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>on the front edge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>on the back edge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Gores</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>At and above the waist</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Opening</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>as in front</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Number of gores</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>all round</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>as fits the number</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>a gore</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>a seam</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Centre front</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>what lies there</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Centre back</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>cut once, whole</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Centre gores</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>gores on a centre</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>equally</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>as Bennett, 1914</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>as Ingalls, c. 1911</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>as Baldt, 1916</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>by my own widths</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Width shared</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>waist, hip and sweep among the gores</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>from the hip</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>straight from the waist</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Flare</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>along the curve</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>straight across</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Hem widths laid</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>of a flare from the hip</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>gore by gore</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Gores from front to back</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>lead stripe</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>what matches</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>which stripe the centre front shows</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Length of the opening</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>0: a closed ring</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>In the seam</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>the usual one</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Allowance, {name}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Front</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Side {index}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{name}, twice</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{name}, grain</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{name}, {line} width</source>
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
      <source> mm per m</source>
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
      <source>Click two marks on the ruler in the picture, far apart.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Click the corners of a rectangle on the cloth: upper left, upper right, lower right, lower left.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>For a scan: its resolution.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What one pixel of the picture is on the cloth.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Picture</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How large it is</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The repeat</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Open a picture…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A scan, or a photograph of the cloth lying flat in even light, five or more repeats in view.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>two marks on a ruler</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>corners of a rectangle</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>resolution of a scan</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>size of a pixel</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Scale by</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How the scale is told</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Marks apart</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How far the marks are apart</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Rectangle wide</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Rectangle high</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Resolution, dpi</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>One pixel, mm</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Find the repeat</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>top</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>bottom</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Part of the picture, pixels</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Only a part…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The part that shows nothing but cloth: drag a rectangle in the picture, or type it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Left edge, px</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Upper edge, px</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Right edge, px</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Lower edge, px</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>the part has no area</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>right beyond left, bottom below top</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Which cloth it is</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>the one that gets the repeat</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>stripes along the cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>These are</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What was found</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>stripe {number}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>1 more place is to be marked</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{count} more places are to be marked</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>add one</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Repeat from a picture</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Use this repeat</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Open a picture of the cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Open a picture of the cloth.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Mark 1 more place in the picture.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Mark {count} more places in the picture.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Now find the repeat.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Found {width} over {repeats} repeats, standard deviation {sd}, leaning {lean}°, confidence {sure}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Where the first repeat begins on the cloth is still to be measured.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A mark a pixel off changes it by {off}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Picture of the cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Click to mark places; arrow keys move the last mark by a pixel.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The picture appears here.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{summary} Its cloth is a stand-in.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>1 piece added.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{count} pieces added.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take {cloth} from the shelf</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{title} has a new repeat. Measure where its first one begins.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Cloth…</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Add {title}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take a cloth out</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Change {cloth}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Change the cloths</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Every panel with its place. Enter types a new place or turn; Alt with the arrow keys moves the panel, with Shift by ten, with Ctrl by a tenth; H holds it, T turns it end for end, M moves it by figures.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Panel</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Every panel that is cut</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Where its origin lies across the cloth, from the left selvedge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Where its origin lies along the cloth, from the cut end</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Turn</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How far it is turned off the grain, clockwise</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Lies</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Whether it is held, or lies end for end</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Worst step</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The largest step on any of its seams, and its grade</source>
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
      <source>Letter</source>
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
      <source>cutting papers</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Cards, cutting plan and seam readings</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>full size</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Full-size pattern in tiles and on a roll</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>edge strips</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Edge strips for a pattern on paper</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>seam sheet</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Seam sheet for the machine</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>full-size plan</source>
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
      <source>Piece</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Mirrored</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Tick off what is cut</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How often the piece is cut</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How many of them are cut mirrored</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Straight, or on the bias</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pieces to cut</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>proved {near}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>nothing proved</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Proving</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What would close the seam</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Show how the bars across the cloth meet at this seam, instead of the stripes</source>
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
      <source>it can't be made ({why})</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>a folder</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>it can't be locked</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>a folder that can be written to</source>
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
      <source>Two edges that are sewn together.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Rms</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How far the stripes miss each other on the whole seam: the root of the mean squared step.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Worst</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The largest step anywhere on the seam, measured square across the stripes.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>At</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How far down the seam the worst step lies, from its upper end.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>By how much the step changes for every metre down the seam, because the two edges lean by different amounts.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How far the stripes miss each other down the seam, upper end on the left. The tinted band is the good grade.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>from the top</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{label}: {a} to {b}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No stripes to match here: the two panels are not of one striped cloth.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Seam readings</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No seams yet. A seam joins a named edge of one panel to a named edge of another.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Sew edges together</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Finding</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Method</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>True it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Change the pieces so, as one step that can be taken back</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>One edge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The other edge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Sew together</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Make a seam of these two edges; left and right are seen to</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pick on the cloth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Click two edges on the cloth to sew them together (J)</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Sew a ring</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Sew all panels side by side to a ring, as far as edges are free</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>to edge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No edge is free</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Sew two edges together</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Sew {edge} to {other}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Change seam {name}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Remove seam {name}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>True {name}: {method}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{name}: {method}. Undo takes it back.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Click an edge, then the one it is sewn to. Escape ends it.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{edge} is sewn already, in the seam {label}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No seams yet</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>nothing to look at</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>1 finding</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{count} findings</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No seams yet. Choose two edges above and sew them together, pick them on the cloth, or sew a ring.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Choose a seam to change it, or open it and choose a finding to true it.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Name of the seam</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Exchange</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The edge on the left becomes the one on the right</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Weight</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How much the seam shows: 3 counts three times as much as 1, 0 not at all</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How the edges meet</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How two edges of different lengths meet</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The same on the other side</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Seen only from</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Only this part of the seam counts in the figures</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Not sewn from</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A pocket mouth or a placket: this part does not count</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Remove seam</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take this seam out; the pieces stay as they are (Delete)</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Left</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Right</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Left, {}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Right, {}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Two edges that are sewn together</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Length of the edge on the left of the seam as seen from outside, on the stitching line</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Length of the edge on its right</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How many things there are to look at; open the seam to see them</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Elsewhere</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Seams and findings</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>
and the same on the other side</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Spread evenly</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Held at the top</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Held at the bottom</source>
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
      <source>Status</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>At the cursor</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How the panels lie</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How near to the best</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Garment's figure</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Length of the lay</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{rms} rms</source>
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
      <source>Job</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stop and keep the best</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Cancel</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>on the middle of {lead}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{step} {unit} right of {lead}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{step} {unit} left of {lead}</source>
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
      <source>The garment's figure under the variant's own weights</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The garment's figure when all are judged by the weights that the seams have now</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The largest step on any seam</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The largest turn off the grain</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Lay</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Cloth that all lays take together</source>
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
      <source>Open a project to see it as it will be worn.</source>
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
