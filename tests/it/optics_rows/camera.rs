//! Holes, planes and angles.

use serde_json::{Map, Value};

use trayside::optics::{Criterion, falloff, foil, measure, pinhole, view};
use trayside::units::scalar::{Angle, Length, Stops};

use super::inputs::Inputs;
use super::{Fields, numbers};

fn mm(inputs: &Inputs<'_>, names: &[&str]) -> Result<Length, String> {
    inputs.number(names).map(Length::from_millimetres)
}

fn criterion(inputs: &Inputs<'_>) -> Result<Criterion, String> {
    let word = inputs.text_or(&["criterion"], "airy")?.to_lowercase();
    let known = Criterion::from_word(&word);
    known.ok_or_else(|| format!("no criterion `{word}`"))
}

fn optimal_diameter(inputs: &Inputs<'_>) -> Fields {
    let f = mm(inputs, &["f_mm", "distance_mm"])?;
    let wave = Length::from_nanometres(inputs.number_or(
        &["wavelength_nm", "lambda_nm"],
        pinhole::PAPER_WAVELENGTH.nanometres(),
    )?);
    let criterion = criterion(inputs)?;
    let d = pinhole::best_hole(criterion, f, wave);
    let c = criterion.constant();
    Ok(numbers([
        ("d_mm", d.millimetres()),
        ("f_number", trayside::optics::f_number::f_number(f, d).number()),
        ("u_over_pi", pinhole::configuration_over_pi(c)),
        ("c", c),
    ]))
}

fn blur(inputs: &Inputs<'_>) -> Fields {
    let (f, d) = (mm(inputs, &["f_mm"])?, mm(inputs, &["d_mm"])?);
    let subject = mm(inputs, &["subject_mm", "Z_mm"])?;
    let wave = inputs.number_or(
        &["wavelength_nm", "lambda_nm"],
        pinhole::PAPER_WAVELENGTH.nanometres(),
    )?;
    let airy = pinhole::airy_radius(d, f, Length::from_nanometres(wave));
    Ok(numbers([
        (
            "geometric_blur_mm",
            pinhole::geometric_blur(d, f, subject).millimetres(),
        ),
        ("image_distance_magnification", pinhole::magnification(f, subject)),
        ("airy_radius_mm", airy.millimetres()),
    ]))
}

fn angle_of_view_flat(inputs: &Inputs<'_>) -> Fields {
    let f = mm(inputs, &["f_mm"])?;
    let (w, h) = (
        mm(inputs, &["w_mm", "width_mm"])?,
        mm(inputs, &["h_mm", "height_mm"])?,
    );
    let diagonal = view::flat(view::diagonal(w, h), f);
    let corner = falloff::loss(falloff::flat(diagonal / 2.0));
    Ok(numbers([
        ("hfov_deg", view::flat(w, f).degrees()),
        ("vfov_deg", view::flat(h, f).degrees()),
        ("dfov_deg", diagonal.degrees()),
        ("corner_loss_stops", corner.stops()),
    ]))
}

fn image_circle_flat(inputs: &Inputs<'_>) -> Fields {
    let f = mm(inputs, &["f_mm"])?;
    let loss = Stops::new(inputs.number(&["loss_stops", "stops"])?);
    Ok(numbers([
        ("half_angle_deg", view::half_angle_for_loss(loss).degrees()),
        ("circle_diameter_mm", view::circle_for_loss(f, loss).millimetres()),
    ]))
}

fn cylinder_wall_hole(inputs: &Inputs<'_>) -> Fields {
    let spot = falloff::wall(
        mm(inputs, &["radius_mm"])?,
        Length::from_millimetres(inputs.number_or(&["arc_from_axis_mm", "arc_mm"], 0.0)?),
        Length::from_millimetres(inputs.number_or(&["height_mm"], 0.0)?),
    );
    Ok(numbers([
        ("ray_azimuth_deg", spot.azimuth.degrees()),
        ("ray_elevation_deg", spot.elevation.degrees()),
        ("relative_illuminance", spot.share),
        ("distance_mm", spot.slant.millimetres()),
    ]))
}

fn cylinder_lid_hole(inputs: &Inputs<'_>) -> Fields {
    let radius = mm(inputs, &["radius_mm"])?;
    let line = falloff::lid(radius, mm(inputs, &["depth_below_lid_mm", "depth_mm"])?);
    let brightest = trayside::optics::f_number::brightest_depth(radius);
    Ok(numbers([
        ("ray_angle_from_axis_deg", line.off_axis.degrees()),
        ("relative_to_brightest", line.share),
        ("depth_of_brightest_mm", brightest.millimetres()),
        ("effective_f_mm", line.focal_length.millimetres()),
    ]))
}

fn half_cylinder_axis_hole(inputs: &Inputs<'_>) -> Fields {
    let radius = mm(inputs, &["radius_mm"])?;
    let azimuth = match inputs.value(&["azimuth_deg"]) {
        Some(_) => Angle::from_degrees(inputs.number(&["azimuth_deg"])?),
        None => view::axis(mm(inputs, &["arc_mm", "arc_from_axis_mm"])?, radius),
    };
    let height = Length::from_millimetres(inputs.number_or(&["height_mm"], 0.0)?);
    let spot = falloff::axis(radius, azimuth, height);
    Ok(numbers([
        ("arc_mm", radius.millimetres() * azimuth.radians()),
        ("azimuth_deg", azimuth.degrees()),
        ("ray_elevation_deg", spot.elevation.degrees()),
        ("relative_illuminance", spot.share),
        ("distance_mm", spot.slant.millimetres()),
    ]))
}

fn foil_vignetting(inputs: &Inputs<'_>) -> Fields {
    let (d, t) = (
        mm(inputs, &["d_mm"])?,
        mm(inputs, &["foil_mm", "t_mm", "thickness_mm"])?,
    );
    let angle = Angle::from_degrees(inputs.number(&["angle_deg"])?);
    let open = foil::open_fraction(d, t, angle);
    Ok(numbers([
        ("open_area_fraction", open),
        ("total_with_cos4", open * falloff::flat(angle)),
        ("cutoff_deg", foil::cut_off(d, t).degrees()),
    ]))
}

fn scan_equivalent_diameter(inputs: &Inputs<'_>) -> Fields {
    let d = measure::from_scan(
        inputs.number(&["hole_area_px", "area_px"])?,
        inputs.number(&["dpi"])?,
    );
    Ok(numbers([("d_mm", d.millimetres())]))
}

fn projection_diameter(inputs: &Inputs<'_>) -> Fields {
    let d = measure::from_projection(
        mm(inputs, &["projected_hole_mm"])?,
        mm(inputs, &["projected_ruler_mm"])?,
        mm(inputs, &["true_ruler_mm"])?,
    );
    Ok(numbers([("d_mm", d.millimetres())]))
}

/// The topics of this file.
pub(crate) fn fields(topic: &str, inputs: &Inputs<'_>, _expected: &Map<String, Value>) -> Option<Fields> {
    Some(match topic {
        "optimal_diameter" | "optimal_diameter_published" => optimal_diameter(inputs),
        "blur" => blur(inputs),
        "angle_of_view_flat" => angle_of_view_flat(inputs),
        "image_circle_flat" => image_circle_flat(inputs),
        "cylinder_wall_hole" => cylinder_wall_hole(inputs),
        "cylinder_lid_hole" => cylinder_lid_hole(inputs),
        "half_cylinder_axis_hole" => half_cylinder_axis_hole(inputs),
        "foil_vignetting" => foil_vignetting(inputs),
        "scan_equivalent_diameter" => scan_equivalent_diameter(inputs),
        "projection_diameter" => projection_diameter(inputs),
        _ => return None,
    })
}
